package chainage.ridefile;

import chainage.ride.Ride;
import chainage.ride.Ride.Distance;
import chainage.ride.Ride.MetresFrom;
import chainage.ride.RideFold;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Chooses among the sources of an activity's distance: the device's total, its odometer, positions, speed.
 *
 * <p>The device's own total comes first: it also counts what the samples miss, and device odometers lack the
 * overstatement of positions.
 */
final class Distances {
    /** Farther than anybody rides without stopping the recording. */
    private static final double FARTHEST_METRES = 2_000_000;

    private static final double FASTEST_MEAN = 40;
    /** Sources that differ by more are worth a remark. */
    private static final double AGREE = 0.02;
    /** A total of 0 is doubted only when samples went at least this far: a receiver at rest wanders some hundred. */
    private static final double SURELY_MOVED_METRES = 500;

    private Distances() {}

    /**
     * The distance, or null when the file states an impossible one and offers nothing better.
     *
     * @param stated the device's total; NaN when not stated
     * @param elapsed seconds, 0 when not known
     */
    static @Nullable Distance choose(
            double stated, Ride.Activity activity, RideFold.Totals t, double elapsed, List<String> remarks) {
        RideFold.Track track = t.positions();
        boolean odometer = plausible(t.odometerMetres(), elapsed);
        boolean positions = plausible(track.metres(), elapsed);
        boolean speed = plausible(t.speedMetres(), elapsed);
        boolean absurd = !Double.isNaN(stated) && stated != 0 && !plausible(stated, elapsed);
        if (absurd) {
            remarks.add(text("the device's total of %.0f m is impossible and not used", stated));
        }
        if (plausible(stated, elapsed)) {
            if (t.odometerMetres() > 0 && differ(stated, t.odometerMetres())) {
                remarks.add(text("device total %.0f m used; the samples count %.0f m", stated, t.odometerMetres()));
            }
            return new Distance(stated, MetresFrom.DEVICE_TOTAL);
        }
        if (stated == 0 && (activity.indoor() || !moved(t, track))) {
            return new Distance(0, MetresFrom.DEVICE_TOTAL);
        }
        if (stated == 0) {
            remarks.add("the device's total is 0 m, but its samples moved; they are used");
        }
        if (odometer) {
            return new Distance(t.odometerMetres(), MetresFrom.DEVICE_ODOMETER);
        }
        if (positions) {
            remarkTrack(track, remarks);
            return new Distance(track.metres(), MetresFrom.POSITIONS);
        }
        if (speed) {
            return new Distance(t.speedMetres(), MetresFrom.SPEED);
        }
        boolean impossible = absurd || beyond(t.odometerMetres()) || beyond(track.metres());
        return impossible ? null : new Distance(0, MetresFrom.NONE);
    }

    private static boolean moved(RideFold.Totals t, RideFold.Track track) {
        return t.odometerMetres() > SURELY_MOVED_METRES || track.metres() > SURELY_MOVED_METRES;
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

    private static boolean differ(double a, double b) {
        return Math.abs(a - b) > AGREE * Math.max(a, b);
    }

    private static String text(String pattern, Object... values) {
        return String.format(Locale.ROOT, pattern, values);
    }
}
