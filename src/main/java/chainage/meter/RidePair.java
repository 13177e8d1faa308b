package chainage.meter;

import chainage.attribution.AttributedRide;
import chainage.friction.RideLoss;
import chainage.meter.MeasuredLoss.Pair;
import chainage.meter.MeasuredLoss.Seen;
import chainage.ride.FiledRide;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * One outing with power from before the chain and from behind it.
 *
 * @param ride the recording that counts
 * @param before the recording with power from before the chain
 * @param behind the one with power from behind it
 * @param pair the two meters
 * @param laid what came of laying them over each other
 * @param loss what the model says that it lost; null where no chain is known, or two ran
 * @param freshMu coefficient of friction by the table when its treatment was fresh, as clean as it was then
 */
public record RidePair(
        AttributedRide ride,
        FiledRide before,
        FiledRide behind,
        Pair pair,
        Laid laid,
        @Nullable RideLoss loss,
        double freshMu) {
    /** As the model takes it; empty where it tells nothing. */
    public Optional<Seen> seen() {
        if (!(laid instanceof Laid.Over over)
                || loss == null
                || !(loss.pedalled().joules() > 0)) {
            return Optional.empty();
        }
        return Optional.of(new Seen(
                pair,
                loss.exposure().product().product(),
                loss.joulesPerMu() / loss.pedalled().joules(),
                freshMu,
                loss.mu(),
                over.logRatio(),
                over.error()));
    }
}
