package chainage.exposure;

import chainage.attribution.AttributedRide;
import chainage.condition.Condition;
import chainage.drivetrain.Load;
import chainage.ledger.Event;
import chainage.ledger.Method;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * What one ride did to its chain.
 *
 * @param ride the ride and its verdict
 * @param condition the road under it
 * @param metres the metres that count for the chain
 * @param product what the chain was treated with then; the factory's own preservative before the first treatment
 * @param treatedAt when; null before the first treatment
 * @param treatmentFactor moisture × grit, 1 on a dry clean road
 * @param wearFactor moisture × grit, 1 on a dry clean road
 * @param load pin sliding work a metre against the reference rider, and what it rests on
 * @param ratePercent mean wear rate in force during it, per cent a wear metre
 */
public record RideExposure(
        AttributedRide ride,
        Condition condition,
        ChainMetres metres,
        Event.ProductDescribed product,
        @Nullable Instant treatedAt,
        double treatmentFactor,
        double wearFactor,
        Load load,
        double ratePercent) {
    /** Metres of dry clean road that use up as much of the treatment. */
    public double treatmentMetres() {
        return metres.metres() * treatmentFactor;
    }

    /** Metres of dry clean road at the reference load that wear the chain as much. */
    public double wearMetres() {
        return metres.metres() * wearFactor * load.value();
    }

    /** Elongation that this ride added, per cent, by the table. */
    public double elongationPercent() {
        return wearMetres() * ratePercent;
    }

    /** Elongation that it would have added on a dry clean road, per cent, by the table. */
    public double cleanPercent() {
        return metres.metres() * load.value() * ratePercent;
    }

    /** When the ride began. */
    public Instant start() {
        return ride.filed().ride().start();
    }

    public Method method() {
        return product.method();
    }
}
