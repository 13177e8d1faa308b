package chainage.exposure;

import chainage.attribution.AttributedRide;
import chainage.condition.Condition;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A ride that counts.
 *
 * @param ride the ride and its verdict
 * @param condition the road under it
 * @param metres what it counts for a chain
 * @param exposure what it did to its chain; null when it had none
 */
public record CountedRide(
        AttributedRide ride,
        Condition condition,
        ChainMetres metres,
        @Nullable RideExposure exposure) {
    /** When the ride began. */
    public Instant start() {
        return ride.filed().ride().start();
    }
}
