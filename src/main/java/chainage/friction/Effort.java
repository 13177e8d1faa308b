package chainage.friction;

import chainage.drivetrain.Gear;
import chainage.drivetrain.Reference;

/**
 * Pedalling as it goes into the chain.
 *
 * @param watts at the crank, above 0
 * @param gear ridden
 * @param rpm cadence, above 0
 */
public record Effort(double watts, Gear gear, double rpm) {
    public Effort {
        if (!(watts > 0) || !(rpm > 0) || Double.isInfinite(watts) || Double.isInfinite(rpm)) {
            throw new IllegalArgumentException(watts + " W at " + rpm + " rpm");
        }
    }

    /** The reference rider's. */
    public static Effort of(Reference reference) {
        return new Effort(reference.watts(), reference.gear(), reference.rpm());
    }

    @Override
    public String toString() {
        return Loss.figure(watts) + " W in " + gear + " at " + Loss.figure(rpm) + " rpm";
    }
}
