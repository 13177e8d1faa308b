package chainage.ride;

import java.util.ArrayList;
import java.util.List;

/** Power by the minute. */
final class PowerFold {
    /** A reading does not speak for a longer time (our choice; devices that thin out keep every few seconds). */
    private static final double LONGEST_SECONDS = 5;

    private static final long MINUTE = 60_000;

    private final List<PowerTrace.Minute> minutes = new ArrayList<>();
    private long first;
    private long current = Long.MIN_VALUE;
    private double seconds;
    private double turning;
    private double joules;
    private double revolutions;

    /** A reading that speaks for the time before it. */
    void step(long until, double dt, double watts, double cadence) {
        if (!(dt > 0) || dt > LONGEST_SECONDS || Double.isNaN(watts)) {
            return;
        }
        long from = until - Math.round(dt * 1000);
        while (from < until) {
            long minute = Math.floorDiv(from, MINUTE);
            long to = Math.min(until, (minute + 1) * MINUTE);
            add(minute, (to - from) / 1000.0, watts, cadence);
            from = to;
        }
    }

    private void add(long minute, double part, double watts, double cadence) {
        if (minute != current) {
            if (minute < current) {
                return; // told already
            }
            close();
            open(minute);
        }
        seconds += part;
        joules += watts * part;
        boolean turns = Double.isNaN(cadence) ? watts > 0 : cadence > 0;
        turning += turns ? part : 0;
        revolutions += turns && !Double.isNaN(cadence) ? cadence / 60 * part : 0;
    }

    private void open(long minute) {
        if (minutes.isEmpty() || (minute - first >= PowerTrace.MOST && minute - current >= PowerTrace.MOST)) {
            // The first, or the first after a clock was set.
            minutes.clear();
            first = minute;
        }
        current = minute;
        seconds = 0;
        turning = 0;
        joules = 0;
        revolutions = 0;
    }

    private void close() {
        if (current == Long.MIN_VALUE || current - first >= PowerTrace.MOST) {
            return;
        }
        while (minutes.size() < current - first) {
            minutes.add(PowerTrace.Minute.EMPTY);
        }
        minutes.add(minute());
    }

    private PowerTrace.Minute minute() {
        int whole = (int) Math.round(seconds);
        int turned = Math.min(whole, (int) Math.round(turning));
        boolean steady = turned >= PowerTrace.Minute.STEADY_SECONDS;
        return whole == 0
                ? PowerTrace.Minute.EMPTY
                : new PowerTrace.Minute(
                        whole,
                        turned,
                        (int) Math.round(joules / seconds),
                        steady ? (int) Math.round(revolutions / turning * 60) : 0);
    }

    /** What came up to now. */
    PowerTrace result() {
        if (current == Long.MIN_VALUE) {
            return PowerTrace.NONE;
        }
        List<PowerTrace.Minute> all = new ArrayList<>(minutes);
        if (current - first < PowerTrace.MOST) {
            while (all.size() < current - first) {
                all.add(PowerTrace.Minute.EMPTY);
            }
            all.add(minute());
        }
        boolean powered = all.stream().anyMatch(m -> m.watts() > 0);
        return powered ? new PowerTrace(first, all) : PowerTrace.NONE;
    }
}
