package chainage.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.ride.Pedalling;
import chainage.ride.Ride;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The quick reader of a ride's columns says what the reader of any JSON says, or leaves the text to it. */
class QuickJsonTest {
    private static final long SEED = 20_260_601;

    @Test
    void theQuickReaderAgreesWithTheGeneralOneOnRandomRides() {
        RandomFacts facts = new RandomFacts(SEED);
        int quick = 0;
        for (int n = 0; n < 1000; n++) {
            Ride ride = facts.ride(n);
            String evidence = RideRow.evidence(ride);
            String pedalling = RideRow.pedalling(ride.pedalling());
            try {
                assertEquals(
                        Evidence.any(Json.parse(evidence), ride.start()),
                        Evidence.quick(new QuickJson(evidence), ride.start(), e -> {}),
                        () -> "seed " + SEED + ": " + evidence);
                quick++;
            } catch (QuickJson.Other e) {
                assertTrue(
                        evidence.contains("\\") || evidence.matches(".*\\d[eE]\\d.*"),
                        "seed " + SEED + ": " + evidence);
            }
            if (pedalling != null && !pedalling.contains("\"rows\":[]")) {
                Pedalling general = RideRow.anyPedalling(Json.parse(pedalling));
                try {
                    assertEquals(general, RideRow.quickPedalling(new QuickJson(pedalling)), pedalling);
                    quick++;
                } catch (QuickJson.Other e) {
                    throw new AssertionError("seed " + SEED + ": left to the general reader: " + pedalling, e);
                }
            }
        }
        assertTrue(quick > 500, quick + " read quickly");
    }

    @Test
    void everyPlainNumberIsTheDoubleThatJavaReads() throws QuickJson.Other {
        Random random = new Random(SEED);
        for (int n = 0; n < 20_000; n++) {
            int decimals = random.nextInt(7);
            String number = String.format(
                    Locale.ROOT, "%." + decimals + "f", (random.nextDouble() - 0.5) * Math.pow(10, random.nextInt(9)));
            assertEquals(
                    Double.parseDouble(number), new QuickJson(number).real(), 0, () -> "seed " + SEED + ": " + number);
        }
        assertEquals(Double.NaN, new QuickJson("null").real());
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "-", ".5", "5.", "01", "1e3", "1.5E-7", "+1", "9007199254740993", "NaN", "\"1\""})
    void whatIsNoPlainNumberIsLeftToTheGeneralReader(String text) {
        assertThrows(QuickJson.Other.class, () -> new QuickJson(text).real());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{\"trace\":[[0,1,2]]}",
                "{\"trace\":[[0,1,2,true]]}",
                "{\"trace\":[[0,1,2,\"3\"]]}",
                "{\"trace\":[[0,1,2,3]]} ",
                "{\"trace\":[[0,1,2,3]],}",
                "{\"labels\":[\"a\",\"b\",\"c\"],\"devices\":[[\"a\",\"b\"]]}",
                "{\"labels\":[\"a\\u0062\",\"b\",\"c\"]}",
                "{\"else\":1}",
                "{ }",
                "[1]"
            })
    void evidenceInAnotherFormIsLeftToTheGeneralReader(String text) {
        assertThrows(
                QuickJson.Other.class, () -> Evidence.quick(new QuickJson(text), java.time.Instant.EPOCH, e -> {}));
    }
}
