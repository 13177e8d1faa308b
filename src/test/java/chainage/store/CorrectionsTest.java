package chainage.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Kinds;
import chainage.ledger.Ledger;
import chainage.store.row.EventCodec;
import chainage.store.row.EventCodecTest;
import chainage.store.row.JsonRow;
import java.lang.reflect.RecordComponent;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** No kind of fact may keep an old name or an old date; a kind that is added later is tried here by itself. */
class CorrectionsTest {
    private static final Instant NOW = Instant.parse("2026-03-01T08:00:00Z");

    private static List<Entry> entries(Event... events) {
        List<Entry> entries = new ArrayList<>();
        for (Event e : events) {
            entries.add(new Entry(entries.size() + 1, entries.size() + 1, NOW, e));
        }
        return entries;
    }

    static Stream<Class<?>> facts() {
        return EventCodecTest.everyKindOfEvent()
                .filter(t -> !List.of(
                                Event.Renamed.class, Event.ChainsMerged.class, Event.Redated.class, Event.Undone.class)
                        .contains(t));
    }

    @ParameterizedTest
    @MethodSource("facts")
    void everyNameInEveryKindOfFactIsRenamed(Class<?> type) {
        for (long seed = 0; seed < 50; seed++) {
            Event event = new RandomFacts(seed).event(type);
            JsonRow fields = JsonRow.parse(EventCodec.encode(event).payload());
            for (Event.Named what : Event.Named.values()) {
                String name = fields.optionalText(what.word());
                if (name != null) {
                    Event.Renamed renamed = new Event.Renamed(what, name, "Sandpiper");
                    Event after =
                            Ledger.of(entries(event, renamed)).facts().get(0).event();
                    assertEquals(type, after.getClass());
                    String payload = EventCodec.encode(after).payload();
                    assertEquals("Sandpiper", JsonRow.parse(payload).text(what.word()), payload);
                    // Nothing else changes: named back it is as it was.
                    Event.Renamed back = new Event.Renamed(what, "Sandpiper", name);
                    assertEquals(
                            event,
                            Ledger.of(entries(event, renamed, back))
                                    .facts()
                                    .get(0)
                                    .event());
                }
            }
        }
    }

    static Stream<Class<?>> datedFactsOfAChain() {
        return facts().filter(t -> Arrays.stream(t.getRecordComponents())
                .map(RecordComponent::getName)
                .toList()
                .containsAll(List.of("chain", "at")));
    }

    @ParameterizedTest
    @MethodSource("datedFactsOfAChain")
    void everyDatedFactOfAChainCanBeRedated(Class<?> type) {
        Event event = new RandomFacts(1).event(type);
        Instant at = Instant.parse("2025-05-05T05:05:05Z");
        Event after = Ledger.of(entries(event, new Event.Redated(1, at)))
                .facts()
                .get(0)
                .event();
        assertEquals(at, Kinds.happened(after).orElseThrow());
        assertTrue(EventCodec.encode(after).payload().contains("2025-05-05T05:05:05.000Z"));
    }

    @ParameterizedTest
    @MethodSource("facts")
    void everyRideInEveryKindOfFactGetsItsNewId(Class<?> type) {
        for (long seed = 0; seed < 50; seed++) {
            Event event = new RandomFacts(seed).event(type);
            JsonRow before = JsonRow.parse(EventCodec.encode(event).payload());
            JsonRow after = JsonRow.parse(EventCodec.encode(
                            entries(event).get(0).withRides(id -> "f00d" + id).event())
                    .payload());
            assertEquals(before.texts("rides").stream().map(id -> "f00d" + id).toList(), after.texts("rides"));
            for (String field : List.of("ride", "of")) {
                String id = before.optionalText(field);
                assertEquals(id == null ? null : "f00d" + id, after.optionalText(field));
            }
        }
    }

    @Test
    void aCorrectionReachesBackOnlyAndGoesWhenTakenBack() {
        Event amber = new Event.ChainDescribed("Amber", 0, 0, null, null);
        Event renamed = new Event.Renamed(Event.Named.CHAIN, "Amber", "Thyme");
        assertEquals(
                List.of("Amber", "Thyme"),
                List.copyOf(Ledger.of(entries(amber, renamed, amber)).chains().keySet()));
        assertEquals(
                List.of("Amber"),
                List.copyOf(Ledger.of(entries(amber, renamed, new Event.Undone(2)))
                        .chains()
                        .keySet()));
        assertEquals(
                List.of("Thyme"),
                List.copyOf(Ledger.of(entries(amber, renamed, new Event.Undone(2), new Event.Undone(3)))
                        .chains()
                        .keySet()));
    }

    @Test
    void theDescriptionOfTheChainThatStaysHolds() {
        Event one = new Event.ChainDescribed("Amber", 112, 11, null, null);
        Event two = new Event.ChainDescribed("Amber2", 110, 10, null, null);
        Event worn = new Event.Remarked("Amber2", NOW, chainage.ledger.Remark.NOISY, "");
        Ledger ledger = Ledger.of(entries(one, two, worn, new Event.ChainsMerged("Amber2", "Amber")));
        assertEquals(List.of(one), List.copyOf(ledger.chains().values()));
        assertEquals(1, ledger.remarks("Amber").size());
        assertEquals(List.of(), ledger.problems());
    }

    @Test
    void correctionsOfWhatIsNotThereChangeNothing() {
        Event amber = new Event.ChainDescribed("Amber", 0, 0, null, null);
        Ledger ledger = Ledger.of(entries(
                amber,
                new Event.Redated(1, NOW),
                new Event.Redated(77, NOW),
                new Event.Renamed(Event.Named.BIKE, "Amber", "Thyme"),
                new Event.ChainsMerged("Moss", "Flint")));
        assertEquals(List.of(amber), ledger.facts().stream().map(Entry::event).toList());
        assertEquals(
                "renamed",
                EventCodec.encode(ledger.inForce().get(3).event()).kind().toLowerCase(Locale.ROOT));
    }
}
