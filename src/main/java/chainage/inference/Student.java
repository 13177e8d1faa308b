package chainage.inference;

/**
 * Student's distribution with 4 degrees: like the normal one near its middle, with far wider ends, so that what lies far
 * off weighs little. Its distribution function needs no more than a root.
 */
public final class Student {
    private static final double DENSITY = Math.log(3.0 / 8);

    private Student() {}

    /** Log density at t. */
    public static double logDensity(double t) {
        return DENSITY - 2.5 * Math.log1p(t * t / 4);
    }

    /** Probability of at most t: 1/2 + 3 s / 4 − s³ / 4 with s = t / √(4 + t²), in a form that keeps small ones. */
    public static double probability(double t) {
        double far = Math.sqrt(4 + t * t);
        double c = 4 / (far * (far + Math.abs(t)));
        double tail = c * c * (3 - c) / 4;
        return t < 0 ? tail : 1 - tail;
    }
}
