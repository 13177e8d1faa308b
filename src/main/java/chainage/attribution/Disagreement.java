package chainage.attribution;

import chainage.ride.FiledRide;
import java.util.Optional;

/**
 * Two recordings of one outing whose distances differ by more than a wheel size set wrong explains.
 *
 * @param metres what this recording has
 * @param other what the other has
 */
public record Disagreement(double metres, double other) {
    /** Of the longer; our guess, wide enough for a wheel size set wrong. */
    static final double SHARE = 0.05;

    /** Empty where they agree; a device that logged no distance at all disagrees with none. */
    public static Optional<Disagreement> of(FiledRide ride, FiledRide other) {
        double a = ride.ride().distance().metres();
        double b = other.ride().distance().metres();
        return a == 0 || b == 0 || Math.abs(a - b) <= SHARE * Math.max(a, b)
                ? Optional.empty()
                : Optional.of(new Disagreement(a, b));
    }
}
