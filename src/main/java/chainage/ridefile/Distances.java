package chainage.ridefile;

import chainage.ride.Ride;
import chainage.ride.Ride.Distance;
import chainage.ride.Ride.MetresFrom;
import chainage.ride.RideFold;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Chooses among the sources of an activity's distance: the device's total, its odometer, its laps, positions, speed.
 *
 * <p>The device's own total comes first: it also counts what the samples miss, and device odometers lack the
 * overstatement of positions. The laps' own totals come after the odometer, since they were seen to lack three quarters
 * of the way; odometer and laps give way to positions that go on far beyond them.
 */
final class Distances {
    /** Farther than anybody rides without stopping the recording (our guess). */
    private static final double FARTHEST_METRES = 2_000_000;

    /** Metres per second over a whole ride, above any rider's (our guess). */
    private static final double FASTEST_MEAN = 40;
    /** Sources that differ by more are worth a remark (our choice; sound sources of one ride agree within 1 %). */
    private static final double AGREE = 0.02;
    /** Positions that differ by more from the device's total are worth one (our choice). */
    private static final double POSITIONS_AGREE = 0.2;
    /**
     * A count is taken for one that stopped when the positions go on to more than this many times its metres, and at
     * least {@link #FAR_METRES} farther (our guess: no sensor that works is half off).
     */
    private static final double STOPPED_FACTOR = 2;

    private static final double FAR_METRES = 1000;
    /**
     * A total of 0 is doubted only when samples went at least this far: a receiver at rest wanders some hundred (our
     * guess).
     */
    private static final double SURELY_MOVED_METRES = 500;

    private Distances() {}

    /**
     * The distance, or null when the file states an impossible one and offers nothing better.
     *
     * @param summary what the device states
     * @param elapsed seconds, 0 when not known
     */
    static @Nullable Distance choose(
            Stated summary, Ride.Activity activity, RideFold.Totals t, double elapsed, List<String> remarks) {
        double stated = summary.metres();
        double laps = summary.lapMetres();
        RideFold.Track track = t.positions();
        boolean odometer = plausible(t.odometerMetres(), elapsed);
        boolean positions = plausible(track.metres(), elapsed);
        boolean speed = plausible(t.speedMetres(), elapsed);
        boolean absurd = !Double.isNaN(stated) && stated != 0 && !plausible(stated, elapsed);
        if (absurd) {
            remarks.add(text("the device's total of %.0f m is impossible and not used", stated));
        }
        if (plausible(stated, elapsed)) {
            if (t.odometerMetres() > 0 && differ(stated, t.odometerMetres(), AGREE)) {
                remarks.add(text("device total %.0f m used; the samples count %.0f m", stated, t.odometerMetres()));
            }
            remarkLaps(laps, stated, "session", remarks);
            if (positions && differ(stated, track.metres(), POSITIONS_AGREE) && far(stated, track.metres())) {
                remarks.add(text("device total %.0f m used; its positions make %.0f m", stated, track.metres()));
            }
            return new Distance(stated, MetresFrom.DEVICE_TOTAL);
        }
        if (stated == 0 && (activity.indoor() || !moved(t, track, laps))) {
            return new Distance(0, MetresFrom.DEVICE_TOTAL);
        }
        if (stated == 0) {
            remarks.add("the device's total is 0 m, but its samples moved; they are used");
        }
        if (odometer && !stopped("odometer", t.odometerMetres(), track, elapsed, remarks)) {
            remarkLaps(laps, t.odometerMetres(), "odometer", remarks);
            return new Distance(t.odometerMetres(), MetresFrom.DEVICE_ODOMETER);
        }
        if (plausible(laps, elapsed) && !stopped("laps", laps, track, elapsed, remarks)) {
            remarks.add(text("no total and no odometer: the laps' %.0f m are used", laps));
            return new Distance(laps, MetresFrom.DEVICE_TOTAL);
        }
        if (positions) {
            remarkTrack(track, remarks);
            return new Distance(track.metres(), MetresFrom.POSITIONS);
        }
        if (speed) {
            return new Distance(t.speedMetres(), MetresFrom.SPEED);
        }
        boolean impossible = absurd || beyond(t.odometerMetres()) || beyond(laps) || beyond(track.metres());
        return impossible ? null : new Distance(0, MetresFrom.NONE);
    }

    private static boolean moved(RideFold.Totals t, RideFold.Track track, double laps) {
        return t.odometerMetres() > SURELY_MOVED_METRES
                || track.metres() > SURELY_MOVED_METRES
                || laps > SURELY_MOVED_METRES;
    }

    /** True when the positions show that a count did not go on to the end. */
    private static boolean stopped(
            String what, double metres, RideFold.Track track, double elapsed, List<String> remarks) {
        boolean stopped = plausible(track.metres(), elapsed)
                && track.metres() > STOPPED_FACTOR * metres
                && far(metres, track.metres());
        if (stopped) {
            remarks.add(text(
                    "only %.0f m by the device's %s: the positions' %.0f m are used", metres, what, track.metres()));
        }
        return stopped;
    }

    private static void remarkLaps(double laps, double metres, String other, List<String> remarks) {
        if (laps > 0 && differ(laps, metres, AGREE)) {
            remarks.add(text("laps add up to %.0f m, the %s says %.0f m", laps, other, metres));
        }
    }

    private static void remarkTrack(RideFold.Track track, List<String> remarks) {
        if (track.jumps() > 0) {
            remarks.add(text("left out %.0f m of impossible jumps, steps: %d", track.jumpMetres(), track.jumps()));
        }
        if (track.jitterMetres() >= 0.5) {
            remarks.add(text(
                    "left out %.0f m of wandering while standing, steps: %d",
                    track.jitterMetres(), track.jitterSteps()));
        }
    }

    private static boolean plausible(double metres, double elapsed) {
        return metres > 0 && metres <= FARTHEST_METRES && (!(elapsed > 0) || metres / elapsed <= FASTEST_MEAN);
    }

    private static boolean beyond(double metres) {
        return metres > FARTHEST_METRES;
    }

    private static boolean differ(double a, double b, double share) {
        return Math.abs(a - b) > share * Math.max(a, b);
    }

    private static boolean far(double a, double b) {
        return Math.abs(a - b) > FAR_METRES;
    }

    private static String text(String pattern, Object... values) {
        return String.format(Locale.ROOT, pattern, values);
    }
}
