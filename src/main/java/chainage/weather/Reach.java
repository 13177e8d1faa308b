package chainage.weather;

import java.time.Duration;

/**
 * How far a record speaks.
 *
 * @param metres farthest that a station may be from the road; more than 0
 * @param gap longest time between two records of a station over which they still hold; more than 0
 */
public record Reach(double metres, Duration gap) {
    /** Hourly records, with half an hour's grace. Our guess. */
    static final Duration GAP = Duration.ofMinutes(90);

    /** 40 km and 90 minutes. Our guess: showers are smaller, fronts are larger. */
    public static final Reach DEFAULT = new Reach(40_000, GAP);

    public Reach {
        if (!(metres > 0) || gap.isNegative() || gap.isZero()) {
            throw new IllegalArgumentException("reach " + metres + " m, " + gap);
        }
    }
}
