package chainage.store.row;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import chainage.ride.Pedalling;
import chainage.ride.Ride;
import chainage.store.RandomFacts;
import java.io.IOException;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class RowJsonTest {
    private static final long SEED = 20_260_601;

    private static void fail(RuntimeException e) {
        throw e;
    }

    private static RideEvidence evidence(String text) {
        return RideEvidence.of(text, Instant.EPOCH, RowJsonTest::fail);
    }

    /** What is read of a column is written as the same column again: nothing of it is lost, moved or rounded. */
    @Test
    void columnsOfRandomRidesAreReadAsTheyWereWritten() {
        RandomFacts facts = new RandomFacts(SEED);
        for (int n = 0; n < 1000; n++) {
            Ride ride = facts.ride(n);
            String evidence = RideRow.evidence(ride);
            String pedalling = RideRow.pedalling(ride.pedalling());
            RideEvidence read = RideEvidence.of(evidence, ride.start(), RowJsonTest::fail);
            Pedalling turned = RideRow.pedalling(pedalling);
            assertEquals(evidence, RideRow.evidence(with(ride, read, turned)), () -> "seed " + SEED);
            assertEquals(pedalling, RideRow.pedalling(turned), () -> "seed " + SEED);
        }
    }

    private static Ride with(Ride ride, RideEvidence e, Pedalling pedalling) {
        return new Ride(
                ride.key(),
                ride.format(),
                ride.start(),
                ride.elapsedSeconds(),
                ride.movingSeconds(),
                ride.distance(),
                ride.effort(),
                ride.activity(),
                pedalling,
                e.devices(),
                e.weather(),
                e.labels(),
                e.trace(),
                e.remarks(),
                e.salvaged(),
                e.offset());
    }

    /** A later version may write more fields, and another program other blanks and another order. */
    @Test
    void orderBlanksEscapesAndUnknownFieldsDoNotMatter() {
        RideEvidence plain = evidence("{\"devices\":[[\"bike_power\",\"7\"]],\"labels\":[\"ab\",\"\",\"\"],"
                + "\"trace\":[[60000,52.5,13,100]],\"remarks\":[\"x\"],\"salvaged\":\"cut\",\"offset\":3600}");
        RideEvidence other = evidence(" { \"else\" : [ { \"a\" : 1 } ], \"offset\" : 3600.0 , \"salvaged\" : \"cut\","
                + " \"remarks\" : [ \"x\" ], \"trace\" : [ [ 6e4, 5.25E1, 13, 100, \"more\" ] ],"
                + " \"labels\" : [ \"a\\u0062\", \"\", \"\", [] ], \"devices\" : [ [ \"bike_power\", \"7\" ] ] } ");
        assertEquals(plain, other);
        assertEquals(List.copyOf(plain.trace()), List.copyOf(other.trace()));
        assertEquals(ZoneOffset.ofHours(1), plain.offset());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "[]",
                "{",
                "{}{}",
                "{\"labels\":[\"a\",\"b\"]}",
                "{\"labels\":[1,2,3]}",
                "{\"devices\":[\"a\",\"b\"]}",
                "{\"devices\":[[\"a\"]]}",
                "{\"remarks\":[\"a\",1]}",
                "{\"remarks\":\"a\"}",
                "{\"salvaged\":1}",
                "{\"offset\":\"1\"}",
                "{\"offset\":1e9}",
                "{\"weather\":[[0,true,\"rain\",1,2]]}",
                "{\"weather\":[[0,1,\"rain\",\"1\",2]]}"
            })
    void whatIsOfAnotherTypeIsRefused(String text) {
        assertThrows(IllegalArgumentException.class, () -> evidence(text));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"[[0,1,2]]", "[[0,1,2,true]]", "[[0,1,2,\"3\"]]", "[[0,1,2,-]]", "[[0,1,2,3]", "[[0,1,", "7"})
    void aTrackThatCannotBeReadIsToldWhenItIsLookedAt(String trace) {
        List<RuntimeException> told = new ArrayList<>();
        RideEvidence read = RideEvidence.of("{\"remarks\":[\"x\"],\"trace\":" + trace + "}", Instant.EPOCH, told::add);
        assertEquals(List.of("x"), read.remarks());
        assertEquals(List.of(), told);
        assertEquals(List.of(), List.copyOf(read.trace()));
        assertEquals(1, told.size());
    }

    @Test
    void everyNumberIsTheDoubleThatJavaReads() throws IOException {
        Random random = new Random(SEED);
        for (int n = 0; n < 20_000; n++) {
            int decimals = random.nextInt(20);
            String number = String.format(
                    Locale.ROOT,
                    random.nextInt(4) == 0 ? "%." + decimals + "e" : "%." + decimals + "f",
                    (random.nextDouble() - 0.5) * Math.pow(10, random.nextInt(9)));
            try (RowJson json = new RowJson("[[" + number + "]]")) {
                assertEquals(
                        List.of(Double.parseDouble(number)),
                        json.rows(RowJson::real),
                        () -> "seed " + SEED + ": " + number);
            }
        }
        try (RowJson json = new RowJson("[[null]]")) {
            assertEquals(List.of(Double.NaN), json.rows(RowJson::real));
        }
    }
}
