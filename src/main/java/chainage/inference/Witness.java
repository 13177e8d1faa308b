package chainage.inference;

/**
 * What somebody's own observations alone say of a value, as if it were a bell: its mean, and one over its variance.
 *
 * @param precision 0 where nothing is said
 */
public record Witness(double mean, double precision) {
    /** What is said less precisely than this, against what is known beforehand as 1, is left out. */
    private static final double LEAST = 0.01;

    /** Nothing is said. */
    public static final Witness NONE = new Witness(0, 0);

    /** The mean with what is known beforehand, a bell about 0 of variance 1. */
    public double withTable() {
        return mean * precision / (1 + precision);
    }

    /** By mean and variance afterwards, and the variance before, about 0. */
    public static Witness of(double mean, double variance, double before) {
        double precision = 1 / variance - 1 / before;
        return precision > LEAST ? new Witness(mean / variance / precision, precision) : NONE;
    }
}
