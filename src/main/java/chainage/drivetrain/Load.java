package chainage.drivetrain;

import java.util.List;
import java.util.stream.Stream;

/**
 * How hard a ride was on its chain: sliding work a metre against the reference rider's.
 *
 * @param value 1 for the reference rider, and where nothing is known
 * @param known false when nothing says how hard, so that 1 stands for it
 * @param usable share of the ride's crank energy whose gear is known, 0 to 1
 * @param from what it rests on, the most telling first; never empty
 */
public record Load(double value, boolean known, double usable, List<LoadReason> from) {
    public Load {
        from = List.copyOf(from);
    }

    /**
     * The load of what was pedalled over a distance. Within the reference's bounds: a broken meter or a broken distance
     * must not decide when a chain is replaced.
     *
     * @param metres that count for the chain
     */
    public static Load of(Pedalled pedalled, double metres, Reference reference) {
        if (!pedalled.isKnown()) {
            return new Load(1, false, 0, pedalled.from());
        }
        if (!(metres > 0)) {
            return new Load(1, false, 0, List.of(new LoadReason.NoDistance()));
        }
        double exact = pedalled.slidingWork() / metres / reference.slidingPerMetre();
        double value = Math.max(reference.leastLoad(), Math.min(reference.mostLoad(), exact));
        List<LoadReason> from = value == exact
                ? pedalled.from()
                : Stream.concat(pedalled.from().stream(), Stream.of(new LoadReason.Bound(exact, value)))
                        .toList();
        return new Load(value, true, pedalled.usable(), from);
    }

    /**
     * The load with a motor's help: the motor pulls on the chain too. Within the same bounds.
     *
     * @param mark where the factor is from
     */
    public Load helped(double times, String mark, Reference reference) {
        return new Load(
                Math.min(reference.mostLoad(), value * times),
                known,
                usable,
                Stream.concat(Stream.of(new LoadReason.Motor(times, mark)), from.stream())
                        .toList());
    }
}
