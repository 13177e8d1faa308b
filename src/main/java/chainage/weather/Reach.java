package chainage.weather;

import java.time.Duration;

/**
 * How far a record speaks.
 *
 * @param metres farthest that a station may be from the road; more than 0
 * @param gap longest time between two records of a station over which they still hold; more than 0
 */
public record Reach(double metres, Duration gap) {
    public Reach {
        if (!(metres > 0) || gap.isNegative() || gap.isZero()) {
            throw new IllegalArgumentException("reach " + metres + " m, " + gap);
        }
    }
}
