package chainage.ride;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class PositionFoldTest {
    /** Metres of a degree of longitude on the equator of WGS84, row equator-1deg-lon of geodesics.csv. */
    private static final double METRES_PER_DEGREE = 111_319.490793;

    private static final long T0 = 1_700_000_000_000L;

    private final PositionFold fold = new PositionFold();
    private long now = T0;

    /** Sources stand in the resource. */
    @ParameterizedTest(name = "{0}")
    @CsvFileSource(resources = "geodesics.csv")
    void geodesics(String id, double lat1, double lon1, double lat2, double lon2, double metres, String mark) {
        assertEquals(metres, Geodesics.metres(lat1, lon1, lat2, lon2), 0.001);
    }

    private void at(double seconds, double eastMetres) {
        at(seconds, eastMetres, true);
    }

    private void at(double seconds, double eastMetres, boolean joined) {
        now = T0 + Math.round(seconds * 1000);
        fold.add(0, 1 + eastMetres / METRES_PER_DEGREE, now, joined, Double.NaN);
    }

    @ParameterizedTest(name = "{0} m/s every {1} s")
    @CsvSource(textBlock = """
            0.3,  1
            0.6,  1
            0.8,  5
            2,    1
            8,    1
            8,   30
            20,   1
            40,   1
            5,  120
            """)
    void steadyRidingIsNeverTakenForWandering(double speed, double every) {
        for (int i = 0; i <= 200; i++) {
            at(i * every, i * every * speed);
        }
        assertEquals(200 * every * speed, fold.result().metres(), 0.01);
        assertEquals(0, fold.result().jumps());
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void standingAddsNextToNothing(long seed) {
        Random random = new Random(seed);
        for (int i = 0; i < 100; i++) {
            at(i, 5 * i);
        }
        double drift = 0;
        for (int i = 100; i < 1300; i++) {
            // A receiver at rest wanders slowly around where it is.
            drift = 0.95 * drift + 0.4 * random.nextGaussian();
            at(i, 500 + drift);
        }
        for (int i = 1300; i < 1400; i++) {
            at(i, 500 + 5 * (i - 1300));
        }
        RideFold.Track track = fold.result();
        assertTrue(track.jitterMetres() > 100, track.toString());
        assertEquals(1000, track.metres(), 12, track.toString());
    }

    @Test
    void ridingInTightCirclesIsRiding() {
        // A circle of 5 m radius every 6 s, 5 m/s.
        for (int i = 0; i <= 600; i++) {
            double angle = 2 * Math.PI * i / 6;
            now = T0 + i * 1000L;
            fold.add(
                    5 * Math.sin(angle) / METRES_PER_DEGREE,
                    1 + 5 * Math.cos(angle) / METRES_PER_DEGREE,
                    now,
                    true,
                    Double.NaN);
        }
        // Chords of a sixth of a turn are as long as the radius.
        assertEquals(3000, fold.result().metres(), 30);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            # case                        | step m  | after s | jumps
            a spike of 500 m in a second    |     500 |       1 | 2
            twelve thousand kilometres      | 12000000 |      1 | 2
            a fast descent                  |      38 |       1 | 0
            signal lost, caught up          |    1500 |     100 | 0
            noise at a tenth of a second    |      60 |     0.1 | 0
            """)
    void jumps(String title, double step, double after, int jumps) {
        double t = 0;
        for (int i = 0; i < 50; i++) {
            at(t++, 8 * i);
        }
        at(t - 1 + after, 49 * 8 + step);
        at(t - 1 + 2 * after, 49 * 8);
        assertEquals(jumps, fold.result().jumps(), fold.result().toString());
        if (jumps > 0) {
            assertEquals(49 * 8, fold.result().metres(), 0.01);
            assertEquals(2 * step, fold.result().jumpMetres(), 0.01 * step);
        }
    }

    @Test
    void frozenReceiverThatCatchesUpIsNoJump() {
        for (int i = 0; i < 20; i++) {
            at(i, 10 * i);
        }
        for (int i = 20; i < 40; i++) {
            at(i, 190);
        }
        at(40, 400);
        assertEquals(400, fold.result().metres(), 0.01);
        assertEquals(0, fold.result().jumps());
    }

    @Test
    void gapsAreNotJoined() {
        at(0, 0);
        at(1, 8);
        at(100, 5000, false);
        at(101, 5008);
        assertEquals(16, fold.result().metres(), 0.01);
    }

    @Test
    void distantPointsADayApartAreNoWay() {
        at(0, 0);
        at(1, 8);
        at(90_000, 300_000);
        at(90_001, 300_008);
        RideFold.Track track = fold.result();
        assertEquals(16, track.metres(), 0.01);
        assertEquals(1, track.jumps());
    }

    @Test
    void acrossTheDateLine() {
        fold.add(0, 179.9999, T0, true, Double.NaN);
        fold.add(0, -179.9999, T0 + 3000, true, Double.NaN);
        assertEquals(0.0002 * METRES_PER_DEGREE, fold.result().metres(), 0.01);
    }

    @Test
    void aSpeedOfZeroIsTrustedOnceTheDeviceHasShownAnother() {
        double lon = 1;
        for (int i = 0; i < 40; i++) {
            double speed = i < 20 ? 5 : 0;
            lon += 5 / METRES_PER_DEGREE;
            fold.add(0, lon, T0 + i * 1000L, true, speed);
        }
        // 20 steps until the first sample that shows 0, 19 with 0 on both sides.
        assertEquals(20 * 5, fold.result().metres(), 0.01);
        PositionFold dead = new PositionFold();
        for (int i = 0; i < 40; i++) {
            dead.add(0, 1 + 5 * i / METRES_PER_DEGREE, T0 + i * 1000L, true, 0);
        }
        assertEquals(39 * 5, dead.result().metres(), 0.01);
    }
}
