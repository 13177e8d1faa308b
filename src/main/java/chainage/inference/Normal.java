package chainage.inference;

import org.apache.commons.statistics.distribution.NormalDistribution;

/** The standard normal distribution, in the forms that likelihoods need. */
public final class Normal {
    /** Its 90 % quantile: with its negative it spans an 80 % interval. */
    public static final double Z90 = 1.2815515655446004;

    private static final NormalDistribution STANDARD = NormalDistribution.of(0, 1);
    private static final double LOG_ROOT_TWO_PI = 0.5 * Math.log(2 * Math.PI);
    /** Below this the probability itself would soon be lost to underflow. */
    private static final double FAR = -30;

    private Normal() {}

    /** Log density at z. */
    public static double logDensity(double z) {
        return -z * z / 2 - LOG_ROOT_TWO_PI;
    }

    /** Probability of at most z. */
    public static double probability(double z) {
        return STANDARD.cumulativeProbability(z);
    }

    /** The z of which this is the probability; above 0 and below 1. */
    public static double quantile(double probability) {
        return STANDARD.inverseCumulativeProbability(probability);
    }

    /** Log probability of at most z; finite for every finite z. */
    public static double logProbability(double z) {
        if (z > FAR) {
            return Math.log(STANDARD.cumulativeProbability(z));
        }
        // The first terms of the asymptotic series; off by less than 1e-6 from here on.
        double s = 1 / (z * z);
        return logDensity(z) - Math.log(-z) + Math.log1p(-s + 3 * s * s);
    }
}
