package chainage.comparison;

import chainage.inference.Normal;
import chainage.quantity.Estimate;
import java.util.function.IntToDoubleFunction;

/**
 * How much more must be seen of each of two products before their difference shows, if their middle values stay where
 * they are: the least number at which what is known of both has shrunk so far that the chance reaches the verdict's.
 *
 * <p>With d the difference of the middle values in the log, v the variance of what is known of each there, it shows when
 * d ≥ z √(v₁ + v₂), z the normal quantile of {@link PairComparison#FIRM}. A life seen to its end adds 1 / spread² to 1 / v.
 *
 * @param count of each product; above {@link #MOST} it means that no number worth waiting for would do
 * @param of what is to be counted
 */
public record MoreToSee(int count, What of) {
    /** More than this nobody will wait for; our choice. */
    public static final int MOST = 50;

    /** Spread of a pace in the log by one reading more: 0.05 % on a chain elongated by 0.25 %. Our choice. */
    private static final double READING = 0.2;

    /** What is to be seen. */
    public enum What {
        /** Treatments, each ridden until it is heard. */
        TREATMENTS,
        /** Readings on every chain that speaks for the product. */
        READINGS,
        /** Further chains, measured when they are worn. */
        CHAINS
    }

    static MoreToSee of(PairComparison.Aspect aspect, ComparedProduct a, ComparedProduct b, Spreads spreads) {
        if (aspect == PairComparison.Aspect.LIFE) {
            Estimate x = a.life().typical();
            Estimate y = b.life().typical();
            return new MoreToSee(
                    least(
                            difference(x, y),
                            n -> after(variance(x), n, spreads.life()) + after(variance(y), n, spreads.life())),
                    What.TREATMENTS);
        }
        double difference = difference(a.wear().percentPer1000Km(), b.wear().percentPer1000Km());
        // What makes all of a rider's chains alike falls out of the difference; each product has half of the rest.
        double each = a.wear().variance(b.wear()) / 2;
        int readings = least(
                difference,
                n -> read(each, a.wear().chains(), n, spreads)
                        + read(each, b.wear().chains(), n, spreads));
        return readings <= MOST
                ? new MoreToSee(readings, What.READINGS)
                : new MoreToSee(least(difference, n -> 2 * after(each, n, spreads.chain())), What.CHAINS);
    }

    /** True when no number worth waiting for would do. */
    public boolean hopeless() {
        return count > MOST;
    }

    /** The least number, from 1 on, at which the difference shows. */
    static int least(double difference, IntToDoubleFunction variance) {
        double z = Normal.quantile(PairComparison.FIRM);
        int n = 1;
        while (n <= MOST && difference < z * Math.sqrt(variance.applyAsDouble(n))) {
            n++;
        }
        return n;
    }

    private static double after(double variance, int more, double spread) {
        return 1 / (1 / variance + more / (spread * spread));
    }

    /** Variance once each of the chains has so many readings more; chains stray about their product all the same. */
    private static double read(double variance, int chains, int more, Spreads s) {
        double chain = s.chain() * s.chain();
        double prior = 1 / (s.product() * s.product());
        double told = Math.max(1e-9, 1 / variance - prior) / chains;
        double reading = Math.max(1e-9, 1 / told - chain);
        return 1 / (prior + chains / (chain + 1 / (1 / reading + more / (READING * READING))));
    }

    /** Difference of the middle values in the log. */
    public static double difference(Estimate x, Estimate y) {
        return Math.abs(Math.log(x.likely() / y.likely()));
    }

    /** Variance in the log by the 80 % interval. */
    public static double variance(Estimate e) {
        double spread = Math.log(e.high() / e.low()) / (2 * Normal.Z90);
        return spread * spread;
    }
}
