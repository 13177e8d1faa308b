package chainage.drivetrain;

import java.util.Locale;

/**
 * How hard a ride was on its chain: sliding work a metre against the reference rider's.
 *
 * @param value 1 for the reference rider, and where nothing is known
 * @param known false when nothing says how hard, so that 1 stands for it
 * @param usable share of the ride's crank energy whose gear is known, 0 to 1
 * @param from what it rests on, in words
 */
public record Load(double value, boolean known, double usable, String from) {
    /**
     * The load of what was pedalled over a distance. Within the reference's bounds: a broken meter or a broken distance
     * must not decide when a chain is replaced.
     *
     * @param metres that count for the chain
     */
    public static Load of(Pedalled pedalled, double metres, Reference reference) {
        if (pedalled.basis() == Pedalled.Basis.NOTHING) {
            return new Load(1, false, 0, pedalled.from());
        }
        if (!(metres > 0)) {
            return new Load(1, false, 0, "no distance to spread the work over");
        }
        double exact = pedalled.slidingWork() / metres / reference.slidingPerMetre();
        double value = Math.max(reference.leastLoad(), Math.min(reference.mostLoad(), exact));
        String bound = value == exact
                ? ""
                : String.format(Locale.ROOT, "; %.2f taken as %.2f, the bound of what is believed", exact, value);
        return new Load(value, true, pedalled.usable(), pedalled.from() + bound);
    }

    /** The load with a motor's help: the motor pulls on the chain too. Within the same bounds. */
    public Load helped(double times, Reference reference) {
        return new Load(
                Math.min(reference.mostLoad(), value * times),
                known,
                usable,
                String.format(Locale.ROOT, "a motor helps, %s times (load.motor, our guess); ", times) + from);
    }
}
