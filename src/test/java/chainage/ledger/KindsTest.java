package chainage.ledger;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What follows from the declaration of a kind; a kind that is added later is tried here by itself. */
class KindsTest {
    private static final int SEEDS = 100;

    static Stream<Kind<?>> kinds() {
        return Kinds.all().stream();
    }

    @Test
    void everyTypeOfFactIsDeclaredUnderAWordOfItsOwn() {
        Set<Class<?>> declared = kinds().map(Kind::type).collect(Collectors.toSet());
        assertEquals(new HashSet<>(Arrays.asList(Event.class.getPermittedSubclasses())), declared);
        assertEquals(kinds().count(), kinds().map(Kind::word).distinct().count());
    }

    @ParameterizedTest
    @MethodSource("kinds")
    <E extends Event> void aFactComesBackFromWhatIsKeptOfIt(Kind<E> kind) {
        for (int seed = 0; seed < SEEDS; seed++) {
            E fact = new RandomEvents(new Random(seed)).of(kind);
            assertSame(kind, Kinds.of(fact));
            assertSame(kind, Kinds.named(kind.word()));
            assertEquals(fact, kind.read(kind.kept(fact)), "seed " + seed);
            kind.check(fact);
        }
    }

    @ParameterizedTest
    @MethodSource("kinds")
    <E extends Event> void eachFieldOutOfBoundsIsRefused(Kind<E> kind) {
        for (int seed = 0; seed < SEEDS; seed++) {
            RandomEvents random = new RandomEvents(new Random(seed));
            E fact = random.of(kind);
            List<Supplier<E>> outside = random.outside(kind, fact).toList();
            for (int i = 0; i < outside.size(); i++) {
                Supplier<E> made = outside.get(i);
                assertThrows(
                        IllegalArgumentException.class,
                        () -> kind.check(made.get()),
                        "seed " + seed + ", " + kind.word() + ", number " + i);
            }
        }
    }

    @ParameterizedTest
    @MethodSource("kinds")
    <E extends Event> void aFieldThatIsMissingOrOfAnotherTypeIsRefused(Kind<E> kind) {
        E fact = new RandomEvents(new Random(1)).of(kind);
        Map<String, Object> kept = kind.kept(fact);
        for (Field<E, ?> field : kind.shape().fields()) {
            Map<String, Object> without = new HashMap<>(kept);
            without.remove(field.name());
            if (field.needed()) {
                assertThrows(IllegalArgumentException.class, () -> kind.read(without), field.name());
            }
            Map<String, Object> other = new HashMap<>(kept);
            other.put(field.name(), kept.get(field.name()) instanceof List<?> ? "x" : List.of());
            if (!(field.value() instanceof Value.Items<?>)) {
                assertThrows(IllegalArgumentException.class, () -> kind.read(other), field.name());
            }
        }
    }

    @Test
    void boundsBetweenFieldsAreBoundsToo() {
        for (Event e :
                List.of(new Event.SpeedBandSet(50, 10), new Event.FactorSet("treatment.wet.hot-wax", 1.0, 0.5, null))) {
            assertThrows(IllegalArgumentException.class, () -> Kinds.of(e).check(e));
        }
    }

    /** Taking back what was said of one thing leaves what was said of another. */
    @Test
    void whatIsSaidAnewIsOnlyWhatWasSaid() {
        Event bike = new Event.BikeDescribed("Dunlin", List.of(), List.of(11, 13), null);
        Event wheel = new Event.Changed(Event.Named.BIKE, "Dunlin", Map.of("circumference_metres", 2.1));
        Event rings = new Event.Changed(Event.Named.BIKE, "Dunlin", Map.of("rings", List.of(34, 50)));
        assertEquals(
                new Event.BikeDescribed("Dunlin", List.of(34, 50), List.of(11, 13), 2.1),
                bikeAfter(bike, wheel, rings));
        assertEquals(
                new Event.BikeDescribed("Dunlin", List.of(34, 50), List.of(11, 13), null),
                bikeAfter(bike, wheel, rings, new Event.Undone(2)));
        assertEquals(bike, bikeAfter(bike, wheel, rings, new Event.Undone(2), new Event.Undone(3)));
    }

    private static Event bikeAfter(Event... events) {
        List<Entry> entries = new ArrayList<>();
        for (Event e : events) {
            entries.add(new Entry(entries.size() + 1, entries.size() + 1, Instant.EPOCH, e));
        }
        Ledger ledger = Ledger.of(entries);
        assertTrue(ledger.problems().isEmpty());
        return Objects.requireNonNull(ledger.bikes().get("Dunlin"));
    }
}
