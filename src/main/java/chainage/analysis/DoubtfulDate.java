package chainage.analysis;

import chainage.ride.FiledRide;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/**
 * A ride whose date is hard to believe: perhaps the clock of the device was wrong.
 *
 * @param alone true for one that is years from all others, false for one in the future
 */
public record DoubtfulDate(FiledRide ride, boolean alone) {
    /** So far from all others; our guess. */
    private static final Duration ALONE = Duration.ofDays(2 * 365);

    /**
     * Finds them.
     *
     * @param rides by start
     */
    public static List<DoubtfulDate> of(List<FiledRide> rides, Instant now) {
        List<DoubtfulDate> found = new ArrayList<>();
        for (int i = 0; i < rides.size(); i++) {
            boolean alone = rides.size() > 2
                    && (i == 0 || isFar(rides.get(i - 1), rides.get(i)))
                    && (i == rides.size() - 1 || isFar(rides.get(i), rides.get(i + 1)));
            if (alone || rides.get(i).ride().start().isAfter(now)) {
                found.add(new DoubtfulDate(rides.get(i), alone));
            }
        }
        return found;
    }

    private static boolean isFar(FiledRide a, FiledRide b) {
        return Duration.between(a.ride().start(), b.ride().start()).compareTo(ALONE) > 0;
    }
}
