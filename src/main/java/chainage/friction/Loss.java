package chainage.friction;

import java.util.Locale;

/**
 * Power that a chain turns into heat, by place. Model values, never a measurement.
 *
 * @param of power at the crank, watts
 * @param tight joints that bend under the tight span's pull, at ring and cog, watts
 * @param slack joints that bend under the slack span's pull, at ring and cog, watts
 * @param jockeys joints that bend at the jockey wheels, watts
 * @param offset side plates that rub where the chain runs aslant, watts
 */
public record Loss(double of, double tight, double slack, double jockeys, double offset) {
    /**
     * How far the model may be off: one percentage point of efficiency either way. That is how well it agrees with
     * published figures where the tension is at least 225 N; below that it disagrees with the laboratory.
     */
    public static final double BAND = 0.01;

    /** In all. */
    public double watts() {
        return tight + slack + jockeys + offset;
    }

    /** Low end of the band; never below 0. */
    public double low() {
        return Math.max(0, watts() - BAND * of);
    }

    /** High end of the band. */
    public double high() {
        return watts() + BAND * of;
    }

    /** Share of the power that reaches the wheel. */
    public double efficiency() {
        return 1 - watts() / of;
    }

    static String figure(double value) {
        return String.format(Locale.ROOT, value == Math.rint(value) ? "%.0f" : "%.1f", value);
    }
}
