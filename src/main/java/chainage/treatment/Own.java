package chainage.treatment;

import chainage.inference.Normal;

/**
 * How a product's level lies about what it shares with the others of its method: most are much alike, some are not. With
 * one width for all, two products that really differ would be pulled together however much is seen of them, or two that
 * are alike would learn nothing from each other.
 *
 * @param near spread of those that are alike, above 0
 * @param far spread of those that are not
 * @param odd share that is not, 0 to 1
 */
public record Own(double near, double far, double odd) {
    private static final double ROOT = Math.sqrt(2 * Math.PI);

    /** All alike. */
    static Own alike(double spread) {
        return new Own(spread, spread, 0);
    }

    /** Standard deviation of all. */
    double sd() {
        return Math.sqrt((1 - odd) * near * near + odd * far * far);
    }

    /** With a further normal part of this spread. */
    Own beside(double spread) {
        return new Own(Math.hypot(near, spread), Math.hypot(far, spread), odd);
    }

    /** Probability of lying no further above the middle than this. */
    double below(double off) {
        return (1 - odd) * Normal.probability(off / near) + odd * Normal.probability(off / far);
    }

    /** Of a distance from the middle. */
    double density(double off) {
        double density = (1 - odd) * bell(off / near) / near;
        return odd == 0 ? density : density + odd * bell(off / far) / far;
    }

    private static double bell(double at) {
        return Math.exp(-at * at / 2) / ROOT;
    }
}
