package chainage.exposure;

import chainage.attribution.AttributedRide;
import chainage.condition.Condition;
import java.time.Instant;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * A ride that counts.
 *
 * @param ride the ride and its verdict
 * @param condition the road under it
 * @param metres what it counts for a chain
 * @param exposure what it did to its chain; null when it had none
 * @param others what it did to the chains of bikes that follow its bike
 */
public record CountedRide(
        AttributedRide ride,
        Condition condition,
        ChainMetres metres,
        @Nullable RideExposure exposure,
        List<RideExposure> others) {
    public CountedRide {
        others = List.copyOf(others);
    }

    /** The same ride, as each chain that ran in it has it; its own first, were it but the lack of one. */
    public Stream<CountedRide> each() {
        return Stream.concat(
                Stream.of(this), others.stream().map(o -> new CountedRide(o.ride(), condition, metres, o, List.of())));
    }

    /** When the ride began. */
    public Instant start() {
        return ride.filed().ride().start();
    }
}
