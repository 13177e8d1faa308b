package chainage.ride;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RideFoldTest {
    private static final double NONE = Double.NaN;
    private static final long T0 = 1_700_000_000_000L;

    private RideFold fold = new RideFold();

    /** A sample without a position. */
    private void add(double seconds, double odometer, double speed, double watts, double cadence) {
        add(seconds, odometer, speed, watts, cadence, true);
    }

    private void add(double seconds, double odometer, double speed, double watts, double cadence, boolean joined) {
        long millis = T0 + Math.round(seconds * 1000);
        fold.add(new Sample(millis, NONE, NONE, odometer, speed, watts, cadence, NONE, NONE, joined));
    }

    @Test
    void odometerOfAnOrdinaryRideEndsAtItsLastValue() {
        add(0, 3.5, NONE, NONE, NONE);
        add(1, 11.5, NONE, NONE, NONE);
        add(2, 19.5, NONE, NONE, NONE);
        assertEquals(19.5, fold.totals().odometerMetres());
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            # case                              | before | values                  | metres
            runs on from the leg before         | 1000   | 1008 1016 1024          | 24
            begins again                        | 1000   | 8 16 24                 | 24
            reset in the middle                 | 0      | 0 500 505 3 13          | 518
            a small step back                   | 0      | 0 100 98 110            | 112
            a count that began long before      | 0      | 52000 52008 52016       | 16
            an impossible leap                  | 0      | 0 8 90000 90008         | 16
            """)
    void odometers(String title, double before, String values, double metres) {
        fold = new RideFold(before);
        double t = 0;
        for (String value : values.split(" ", -1)) {
            add(t, Double.parseDouble(value), NONE, NONE, NONE);
            t += 60;
            if (title.startsWith("an impossible")) {
                t -= 59;
            }
        }
        assertEquals(metres, fold.totals().odometerMetres(), 1e-9);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            # case                  | seconds                 | elapsed | backwards | jumps
            one second each         | 0 1 2 3                 | 3       | 0         | 0
            a pause                 | 0 1 3601 3602           | 3602    | 0         | 0
            out of order            | 0 1 5 3 4 6             | 6       | 1         | 0
            a clock set by a week   | 0 100 604900 604950     | 150     | 0         | 1
            and set back            | 0 100 604900 200        | 100     | 0         | 2
            a day less four hours   | 0 72000                 | 72000   | 0         | 0
            """)
    void elapsed(String title, String seconds, double elapsed, int backwards, int jumps) {
        for (String s : seconds.split(" ", -1)) {
            add(Double.parseDouble(s), NONE, NONE, NONE, NONE);
        }
        RideFold.Totals t = fold.totals();
        assertEquals(elapsed, t.elapsedSeconds(), 1e-9);
        assertEquals(backwards, t.backwards());
        assertEquals(jumps, t.clockJumps());
    }

    @Test
    void movingTimeAndMedianLeaveStandingOut() {
        for (int i = 0; i < 100; i++) {
            add(i, NONE, 5, NONE, NONE);
        }
        for (int i = 100; i < 400; i++) {
            add(i, NONE, 0.3, NONE, NONE);
        }
        for (int i = 400; i < 550; i++) {
            add(i, NONE, 9, NONE, NONE);
        }
        RideFold.Totals t = fold.totals();
        assertEquals(249, t.movingSeconds(), 1e-9);
        assertEquals(9.05, t.medianSpeed(), 1e-9);
    }

    @Test
    void paceOfSparseOdometerHoldsForTheSamplesBetween() {
        for (int i = 0; i <= 100; i++) {
            add(i, i % 10 == 0 ? 6.0 * i : NONE, NONE, NONE, NONE);
        }
        RideFold.Totals t = fold.totals();
        assertEquals(100, t.movingSeconds(), 1e-9);
        assertEquals(6.05, t.medianSpeed(), 1e-9);
        assertEquals(600, t.odometerMetres(), 1e-9);
    }

    @Test
    void noTimeMovingAcrossAGap() {
        add(0, 0, NONE, NONE, NONE);
        add(1, 8, NONE, NONE, NONE);
        add(601, 4000, NONE, NONE, NONE, false);
        add(602, 4008, NONE, NONE, NONE);
        RideFold.Totals t = fold.totals();
        assertEquals(2, t.movingSeconds(), 1e-9);
        assertEquals(602, t.elapsedSeconds(), 1e-9);
        // The device counted on, so its count holds.
        assertEquals(4008, t.odometerMetres(), 1e-9);
    }

    @ParameterizedTest(name = "{0} W")
    @CsvSource({"65535", "3001", "-5", "NaN", "Infinity"})
    void absurdWattsAreNone(double watts) {
        add(0, NONE, 5, 100, 80);
        add(1, NONE, 5, watts, 80);
        assertEquals(100, fold.totals().watts(), 1e-9);
    }

    @Test
    void aMeterThatNeverShowsAWattIsNone() {
        add(0, NONE, 5, 0, 80);
        add(1, NONE, 5, 0, 80);
        assertTrue(Double.isNaN(fold.totals().watts()));
        assertTrue(Double.isNaN(fold.totals().pedalling().rows().get(0).joules()));
    }

    @Test
    void pedallingByDevelopmentThenByGear() {
        double t = 0;
        add(t++, NONE, 6, 150, 90);
        for (int i = 0; i < 60; i++) {
            // 6 m/s at 90 turns a minute: 4 m a turn.
            add(t++, NONE, 6, 150, 90);
        }
        for (int i = 0; i < 20; i++) {
            add(t++, NONE, 10, 0, 0);
        }
        fold.shift(50, 0);
        fold.shift(0, 17);
        for (int i = 0; i < 30; i++) {
            add(t++, NONE, 8, 200, 80);
        }
        fold.shift(200, 3);
        add(t++, NONE, 8, 200, 80);
        // Too long a step to say how it was pedalled.
        add(t + 40, NONE, 8, 200, 80);
        Pedalling p = fold.totals().pedalling();
        assertEquals(2, p.rows().size(), p.toString());
        assertEquals(
                new Pedalling.Row(0, 0, 4.125, 60, 90, 9000, 360),
                rounded(p.rows().get(0)));
        assertEquals(50, p.rows().get(1).ring());
        assertEquals(17, p.rows().get(1).cog());
        assertEquals(31, p.rows().get(1).seconds(), 1e-9);
        assertEquals(6200, p.rows().get(1).joules(), 1e-9);
        assertEquals(20, p.coastingSeconds(), 1e-9);
        assertEquals(200, p.coastingMetres(), 1e-9);
    }

    private static Pedalling.Row rounded(Pedalling.Row r) {
        return new Pedalling.Row(
                r.ring(),
                r.cog(),
                r.development(),
                r.seconds(),
                Math.round(r.revolutions() * 1000) / 1000.0,
                r.joules(),
                Math.round(r.metres() * 1000) / 1000.0);
    }

    @Test
    void cadenceThatIsAlwaysZeroIsNoSensor() {
        for (int i = 0; i < 50; i++) {
            add(i, NONE, 7, NONE, 0);
        }
        assertEquals(Pedalling.NONE, fold.totals().pedalling());
    }

    @Test
    void aTableNeverGrowsPastSixtyRowsAndLosesNothing() {
        double t = 0;
        add(t, NONE, 7, 100, 80);
        for (int ring = 20; ring <= 70; ring++) {
            for (int cog = 9; cog <= 40; cog++) {
                fold.shift(ring, cog);
                add(++t, NONE, 7, 100, 80);
            }
        }
        Pedalling p = fold.totals().pedalling();
        assertTrue(p.rows().size() <= 61, "" + p.rows().size());
        assertEquals(t, p.rows().stream().mapToDouble(Pedalling.Row::seconds).sum(), 1e-6);
        assertEquals(t * 80 / 60, p.revolutions(), 1e-6);
    }

    @Test
    void climbingIgnoresNoiseBelowThreeMetres() {
        double[] altitudes = {100, 102, 99, 101, 110, 108, 109, 90, 95};
        for (int i = 0; i < altitudes.length; i++) {
            fold.add(new Sample(T0 + i * 1000L, NONE, NONE, NONE, NONE, NONE, NONE, NONE, altitudes[i], true));
        }
        assertEquals(10 + 5, fold.totals().ascentMetres(), 1e-9);
    }

    @Test
    void traceIsCoarseAndByTime() {
        for (int i = 0; i <= 3000; i++) {
            fold.add(new Sample(
                    T0 + i * 1000L, 12.3456 + i * 1e-5, -45.6789, 8.0 * i, NONE, NONE, NONE, NONE, NONE, true));
        }
        var trace = fold.trace();
        assertEquals(6, trace.size());
        assertEquals(T0, trace.get(0).at().toEpochMilli());
        assertEquals(T0 + 3_000_000, trace.get(5).at().toEpochMilli());
        assertEquals(12.35, trace.get(0).latitude());
        assertEquals(-45.68, trace.get(0).longitude());
        assertEquals(24_000, trace.get(5).metres());
    }

    @Test
    void positionsThatCannotBeAreNone() {
        double[][] places = {{91, 5}, {5, 181}, {0, 0}, {NONE, 5}, {45, 7}, {45, 7.001}};
        for (int i = 0; i < places.length; i++) {
            fold.add(
                    new Sample(T0 + i * 60_000L, places[i][0], places[i][1], NONE, NONE, NONE, NONE, NONE, NONE, true));
        }
        assertEquals(2, fold.totals().positions().points());
        assertTrue(fold.totals().positions().metres() < 100);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            # case                        | seconds           | pedalled
            one second each               | 0 1 2 3           | 3
            a gap says nothing            | 0 1 2 3 63        | 3
            a gap at first says nothing   | 0 60 61 62        | 2
            one minute each               | 0 60 120 180      | 180
            one minute each, one missing  | 0 60 120 240 300  | 300
            one minute each, then a pause | 0 60 120 400 460  | 180
            """)
    void stepsAreAsLongAsTheRecordingMakesThem(String title, String seconds, double pedalled) {
        for (String s : seconds.split(" ", -1)) {
            add(Double.parseDouble(s), NONE, 5, 200, 90);
        }
        Pedalling p = fold.totals().pedalling();
        assertEquals(
                pedalled, p.rows().stream().mapToDouble(Pedalling.Row::seconds).sum(), 1e-9);
        assertEquals(pedalled * 1.5, p.revolutions(), 1e-9);
        assertEquals(pedalled * 5, fold.totals().speedMetres(), 1e-9);
    }
}
