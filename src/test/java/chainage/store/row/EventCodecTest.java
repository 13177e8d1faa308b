package chainage.store.row;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.ledger.Reading;
import chainage.quantity.Money;
import chainage.store.RandomFacts;
import java.time.Instant;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

public class EventCodecTest {
    public static Stream<Class<?>> everyKindOfEvent() {
        return Arrays.stream(Event.class.getPermittedSubclasses());
    }

    @ParameterizedTest
    @MethodSource("everyKindOfEvent")
    void everyEventComesBackAsItWas(Class<?> type) {
        for (long seed = 0; seed < 200; seed++) {
            Event event = new RandomFacts(seed).event(type);
            EventCodec.Encoded encoded = EventCodec.encode(event);
            assertEquals(event, EventCodec.decode(encoded.kind(), encoded.payload()), "seed " + seed);
            assertEquals(encoded, EventCodec.encode(event), "seed " + seed);
        }
    }

    @Test
    void everyKindHasAWordOfItsOwn() {
        Set<String> kinds = new HashSet<>();
        everyKindOfEvent()
                .forEach(type -> kinds.add(
                        EventCodec.encode(new RandomFacts(1).event(type)).kind()));
        assertEquals(everyKindOfEvent().count(), kinds.size());
    }

    @Test
    void instantsAreUtcTextsWithMilliseconds() {
        Instant at = Instant.parse("2026-03-01T08:00:00.123456789Z");
        assertEquals(
                "{\"chain\":\"C\",\"at\":\"2026-03-01T08:00:00.123Z\"}",
                EventCodec.encode(new Event.Removed("C", at)).payload());
        assertEquals(
                "{\"chain\":\"C\",\"at\":\"2026-03-01T08:00:00.000Z\"}",
                EventCodec.encode(new Event.Removed("C", Instant.parse("2026-03-01T08:00:00Z")))
                        .payload());
    }

    /** As the first ledgers hold it. */
    @Test
    void aBikeWrittenBeforeJockeyWheelsWereAskedForHasNoneEntered() {
        String old = "{\"bike\":\"Dunlin\",\"rings\":[34,50],\"cogs\":[11,13],\"circumference_metres\":2.105}";
        Event.BikeDescribed bike =
                new Event.BikeDescribed("Dunlin", List.of(34, 50), List.of(11, 13), 2.105, List.of());
        assertEquals(bike, EventCodec.decode("bike-described", old));
        assertEquals(old, EventCodec.encode(bike).payload());
    }

    /** As the first ledgers hold them. */
    @Test
    void readingsWrittenBeforeErrorsAndPlacesWereAskedForStayAsTheyWere() {
        Instant at = Instant.parse("2026-06-01T00:00:00Z");
        String ruler = "{\"chain\":\"Amber\",\"at\":\"2026-06-01T00:00:00.000Z\",\"reading\":"
                + "{\"percent\":0.21,\"tool\":\"ruler\",\"pitches\":24}}";
        Event.Measured length = new Event.Measured("Amber", at, new Reading.Elongation(0.21, Reading.Tool.RULER, 24));
        assertEquals(length, EventCodec.decode("measured", ruler));
        assertEquals(ruler, EventCodec.encode(length).payload());
        String gauge = "{\"chain\":\"Moss\",\"at\":\"2026-06-01T00:00:00.000Z\",\"reading\":"
                + "{\"edge_percent\":0.5,\"drops\":false}}";
        Event.Measured edge = new Event.Measured("Moss", at, new Reading.Gauge(0.5, false));
        assertEquals(edge, EventCodec.decode("measured", gauge));
        assertEquals(gauge, EventCodec.encode(edge).payload());
    }

    /** As the first ledgers hold it. */
    @Test
    void aProductWrittenBeforeItsTreatmentsWereAskedForHasNoneEntered() {
        String old =
                "{\"product\":\"Kettle Block\",\"method\":\"hot-wax\",\"price\":{\"minor\":2750,\"currency\":\"EUR\"},"
                        + "\"package_millilitres\":400.0}";
        Event.ProductDescribed product =
                new Event.ProductDescribed("Kettle Block", Method.HOT_WAX, new Money(2750, "EUR"), 400.0, null, null);
        assertEquals(product, EventCodec.decode("product-described", old));
        assertEquals(old, EventCodec.encode(product).payload());
    }

    @Test
    void unknownKindsAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> EventCodec.decode("polished", "{}"));
    }

    @Test
    void figuresThatAreNoNumbersAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> EventCodec.encode(new Event.SpeedBandSet(Double.NaN, 55)));
    }
}
