package chainage.inference;

import java.util.function.DoubleUnaryOperator;

/**
 * A density of one variable on an even grid, normalised.
 *
 * <p>The integral is the trapezoid rule with the correction for the slope at each end of a cell, and the distribution
 * function is interpolated by cubics that meet it in value and slope: both are off by the fourth power of the step. On
 * the grid that {@link #of} chooses, a bell has some fifteen points a standard deviation, and its quantiles are good
 * to about a millionth of that.
 */
public final class Density {
    /** Where the log density is this far below its peak, nothing is left worth a point: 5 in 10^14 of the peak. */
    private static final double NOTHING = 30;

    private static final int SCAN = 65;
    private static final int POINTS = 201;

    private final double from;
    private final double step;
    private final double[] density;
    private final double[] cumulative;
    private final double logIntegral;

    private Density(double from, double step, double[] logDensity) {
        this.from = from;
        this.step = step;
        double peak = Double.NEGATIVE_INFINITY;
        for (double v : logDensity) {
            peak = Math.max(peak, v);
        }
        if (!(peak > Double.NEGATIVE_INFINITY && peak < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException("a density without a peak: " + peak);
        }
        density = new double[logDensity.length];
        for (int i = 0; i < density.length; i++) {
            density[i] = Math.exp(logDensity[i] - peak);
        }
        cumulative = cumulated(density);
        double sum = cumulative[cumulative.length - 1];
        logIntegral = peak + Math.log(sum);
        for (int i = 0; i < density.length; i++) {
            density[i] /= sum;
            cumulative[i] /= sum;
        }
    }

    /**
     * The density on a grid of its own, fitted to where there is any.
     *
     * @param logDensity up to a constant; minus infinity where there is none
     * @param low least value, at which there may still be some
     * @param high greatest value, above low
     */
    public static Density of(DoubleUnaryOperator logDensity, double low, double high) {
        double[] ends = support(logDensity, low, high, NOTHING);
        return on(logDensity, ends[0], ends[1], POINTS);
    }

    /** By its logs, up to a constant, at even steps. */
    public static Density of(double from, double step, double[] logDensity) {
        return new Density(from, step, logDensity);
    }

    /**
     * Where a density is: the least and the greatest value at which it may be more than next to nothing.
     *
     * @param below logs that are so far below the peak are nothing
     */
    public static double[] support(DoubleUnaryOperator logDensity, double low, double high, double below) {
        double a = low;
        double b = high;
        for (double width = Double.POSITIVE_INFINITY; b - a < 0.7 * width; ) {
            width = b - a;
            double h = width / (SCAN - 1);
            double[] at = sampled(logDensity, a, h, SCAN);
            double peak = Double.NEGATIVE_INFINITY;
            for (double v : at) {
                peak = Math.max(peak, v);
            }
            int first = 0;
            while (first < SCAN - 1 && !(at[first] > peak - below)) {
                first++;
            }
            int last = SCAN - 1;
            while (last > 0 && !(at[last] > peak - below)) {
                last--;
            }
            b = Math.min(high, a + (last + 1) * h);
            a = Math.max(low, a + (first - 1) * h);
        }
        return new double[] {a, b};
    }

    /** The density on a given grid of so many points, both ends among them. */
    static Density on(DoubleUnaryOperator logDensity, double low, double high, int points) {
        double h = (high - low) / (points - 1);
        return new Density(low, h, sampled(logDensity, low, h, points));
    }

    private static double[] sampled(DoubleUnaryOperator f, double from, double step, int points) {
        double[] at = new double[points];
        for (int i = 0; i < points; i++) {
            at[i] = f.applyAsDouble(from + i * step);
        }
        return at;
    }

    private double[] cumulated(double[] y) {
        double[] sum = new double[y.length];
        for (int i = 1; i < y.length; i++) {
            double cell = step / 2 * (y[i - 1] + y[i]) + step / 12 * (rise(y, i - 1) - rise(y, i));
            sum[i] = sum[i - 1] + Math.max(0, cell);
        }
        return sum;
    }

    /** Slope times step, from neighbours. */
    private static double rise(double[] y, int i) {
        int n = y.length;
        if (i == 0) {
            return -1.5 * y[0] + 2 * y[1] - 0.5 * y[2];
        }
        if (i == n - 1) {
            return 1.5 * y[n - 1] - 2 * y[n - 2] + 0.5 * y[n - 3];
        }
        return i == 1 || i == n - 2
                ? (y[i + 1] - y[i - 1]) / 2
                : (8 * (y[i + 1] - y[i - 1]) - y[i + 2] + y[i - 2]) / 12;
    }

    /** Least value on the grid. */
    public double low() {
        return from;
    }

    /** Greatest value on the grid. */
    public double high() {
        return from + step * (density.length - 1);
    }

    /** Its points, ascending. */
    double[] grid() {
        double[] at = new double[density.length];
        for (int i = 0; i < at.length; i++) {
            at[i] = from + i * step;
        }
        return at;
    }

    /** Log of the integral that it had before it was normalised: the evidence, where it is prior times likelihood. */
    public double logIntegral() {
        return logIntegral;
    }

    /** The density at x, in a straight line between its points. */
    public double at(double x) {
        double t = (x - from) / step;
        int i = (int) t;
        return t < 0 || i >= density.length - 1 ? 0 : density[i] + (t - i) * (density[i + 1] - density[i]);
    }

    /** Probability of at most x. */
    public double probability(double x) {
        double t = (x - from) / step;
        if (t <= 0) {
            return 0;
        }
        int i = (int) t;
        return i >= density.length - 1 ? 1 : between(i, t - i);
    }

    /** The distribution function inside a cell, t from 0 to 1. */
    private double between(int i, double t) {
        double a = cumulative[i];
        double b = cumulative[i + 1];
        double u = 1 - t;
        double v = a * u * u * (1 + 2 * t)
                + b * t * t * (3 - 2 * t)
                + step * t * u * (density[i] * u - density[i + 1] * t);
        return Math.max(a, Math.min(b, v));
    }

    /**
     * The value that lies above a share of the probability.
     *
     * @param p 0 to 1
     */
    public double quantile(double p) {
        int low = 0;
        int high = cumulative.length - 1;
        while (high - low > 1) {
            int middle = (low + high) >>> 1;
            if (cumulative[middle] <= p) {
                low = middle;
            } else {
                high = middle;
            }
        }
        double a = 0;
        double b = 1;
        for (int i = 0; i < 40; i++) {
            double t = (a + b) / 2;
            if (between(low, t) <= p) {
                a = t;
            } else {
                b = t;
            }
        }
        return from + step * (low + (a + b) / 2);
    }

    /** Mean of a function of the variable. */
    public double mean(DoubleUnaryOperator f) {
        double[] y = new double[density.length];
        for (int i = 0; i < y.length; i++) {
            y[i] = density[i] == 0 ? 0 : density[i] * f.applyAsDouble(from + i * step);
        }
        double sum = 0;
        for (int i = 1; i < y.length; i++) {
            sum += step / 2 * (y[i - 1] + y[i]) + step / 12 * (rise(y, i - 1) - rise(y, i));
        }
        return sum;
    }

    /**
     * Chance that this is the smaller of two, the other drawn apart from it.
     *
     * @param asOther a value of this in terms of the other; rising
     */
    public double isBelow(Density other, DoubleUnaryOperator asOther) {
        return mean(x -> 1 - other.probability(asOther.applyAsDouble(x)));
    }
}
