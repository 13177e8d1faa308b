package chainage.inference;

/**
 * The standard normal distribution function from a table, for where it is asked for a million times: off by less than
 * 2e-6 (the square of the step over 8, times the greatest slope of the density).
 */
public final class NormalTable {
    private static final int PER_UNIT = 128;
    private static final int REACH = 8;
    private static final double END = 2 * REACH * PER_UNIT;
    private static final double[] AT = new double[2 * REACH * PER_UNIT + 2];

    static {
        // Simpson's rule over each step, which is off by less than a double's last digits here.
        double h = 1.0 / PER_UNIT;
        double sum = 0;
        double last = density(-REACH);
        for (int i = 1; i < AT.length; i++) {
            double at = -REACH + i * h;
            double now = density(at);
            sum += h / 6 * (last + 4 * density(at - h / 2) + now);
            AT[i] = sum;
            last = now;
        }
    }

    private NormalTable() {}

    private static double density(double z) {
        return Math.exp(-z * z / 2) / Math.sqrt(2 * Math.PI);
    }

    /** Probability of at most z; 0 and 1 beyond eight standard deviations. */
    public static double probability(double z) {
        return at((z + REACH) * PER_UNIT);
    }

    /**
     * Probabilities of at most x about each of some middles, in one go.
     *
     * @param spread about each of them
     * @param to gets them
     */
    public static void probabilities(double x, double[] middles, double spread, double[] to) {
        for (int k = 0; k < to.length; k++) {
            to[k] = at(((x - middles[k]) / spread + REACH) * PER_UNIT);
        }
    }

    private static double at(double t) {
        if (!(t > 0)) {
            return 0;
        }
        if (t >= END) {
            return 1;
        }
        int i = (int) t;
        double low = AT[i];
        return low + (t - i) * (AT[i + 1] - low);
    }
}
