package chainage.cost;

import chainage.friction.Effort;
import chainage.friction.Friction;
import chainage.friction.Loss;
import chainage.friction.LossSum;
import chainage.friction.RideLoss;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Mean power lost in the chain over some rides.
 *
 * @param watts lost
 * @param of power at the crank, watts
 * @param mu mean coefficient of friction that it stands for
 */
public record Watts(double watts, double of, double mu) {
    /**
     * The mean loss of rides while pedalling, by their own power and gears; those without power are left out.
     *
     * @param effort in place of their own, each ride then counting by its metres; null for their own
     */
    public static Watts of(List<RideLoss> losses, Friction friction, @Nullable Effort effort) {
        if (effort == null) {
            LossSum sum = LossSum.of(losses);
            double perMu = losses.stream()
                    .filter(RideLoss::counted)
                    .mapToDouble(RideLoss::joulesPerMu)
                    .sum();
            return new Watts(sum.watts(), sum.crankJoules() / sum.seconds(), sum.lostJoules() / perMu);
        }
        double metres = 0;
        double weighted = 0;
        for (RideLoss l : losses) {
            metres += l.exposure().metres().metres();
            weighted += l.exposure().metres().metres() * l.mu();
        }
        return at(weighted / metres, friction, effort);
    }

    /** The loss at one coefficient all the time. */
    public static Watts at(double mu, Friction friction, Effort effort) {
        return new Watts(friction.usual().loss(effort, mu).watts(), effort.watts(), mu);
    }

    /** The same rides at one coefficient all the time, to which the loss is proportional. */
    public Watts at(double other) {
        return new Watts(watts / mu * other, of, other);
    }

    /** How far the model may be off either way, watts. */
    public double band() {
        return Loss.BAND * of;
    }
}
