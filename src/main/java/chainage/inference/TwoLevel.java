package chainage.inference;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;

/**
 * Things that are alike: each has a level of its own, spread around one that all of them share, so that what is seen of
 * some teaches about the others.
 *
 * <p>Level of thing i: u_i ~ Normal(m, own²); shared: m ~ Normal(0, shared²). What is seen of thing i has a likelihood
 * in u_i alone. Given m the things are independent, so that everything is a product of integrals over one variable.
 */
public final class TwoLevel {
    /** How many standard deviations the grids reach; our choice: 2 in 10^9 lies beyond. */
    private static final double REACH = 6;

    private static final int PRIOR_POINTS = 130;
    /** A term whose log is this far below the greatest adds nothing that a double could hold. */
    private static final double NOTHING = 40;

    private final double own;
    private final double total;
    private final double[] shared;
    private final double[] logShared;
    private final List<double[]> logMarginals = new ArrayList<>();
    private final List<DoubleUnaryOperator> logLikelihoods;

    /**
     * Joins what is seen of several things.
     *
     * @param own spread of each around the shared level, above 0
     * @param shared spread of the shared level around 0, 0 or more; at 0 nothing is shared
     * @param logLikelihoods of each thing, as functions of its level, up to a constant; a thing of which nothing is seen
     *     needs none. Not all of it may be minus infinity.
     */
    public TwoLevel(double own, double shared, List<DoubleUnaryOperator> logLikelihoods) {
        this.own = own;
        this.total = Math.hypot(own, shared);
        this.logLikelihoods = List.copyOf(logLikelihoods);
        // Fine enough for the narrower of the two bells.
        int half = shared == 0 ? 0 : (int) Math.ceil(REACH * Math.min(40, Math.max(8, 4 * shared / own)));
        this.shared = new double[2 * half + 1];
        this.logShared = new double[2 * half + 1];
        for (int j = 0; j < this.shared.length; j++) {
            this.shared[j] = half == 0 ? 0 : REACH * shared * (j - half) / half;
            logShared[j] = half == 0 ? 0 : Normal.logDensity(this.shared[j] / shared);
        }
        for (DoubleUnaryOperator seen : this.logLikelihoods) {
            double[] marginal = marginal(seen);
            logMarginals.add(marginal);
            for (int j = 0; j < marginal.length; j++) {
                logShared[j] += marginal[j];
            }
        }
    }

    /** Log likelihood of the shared level by what is seen of one thing, on the grid of the shared level. */
    private double[] marginal(DoubleUnaryOperator seen) {
        double[] marginal = new double[shared.length];
        if (shared.length == 1) {
            return marginal; // a constant, and nothing to learn
        }
        // Under a prior wider than any that the shared level can give, where is there anything of it?
        Density where = Density.of(
                u -> seen.applyAsDouble(u) + Normal.logDensity(u / (1.5 * total)), -2 * reach(), 2 * reach());
        double[] u = where.grid();
        double[] log = new double[u.length];
        for (int i = 0; i < u.length; i++) {
            log[i] = seen.applyAsDouble(u[i]);
        }
        for (int j = 0; j < shared.length; j++) {
            double[] terms = new double[u.length];
            for (int i = 0; i < u.length; i++) {
                double z = (u[i] - shared[j]) / own;
                terms[i] = log[i] - z * z / 2;
            }
            marginal[j] = logSum(terms);
        }
        return marginal;
    }

    /** Log of a sum, of its terms' logs; minus infinity where all are. */
    public static double logSum(double[] logs) {
        double peak = Double.NEGATIVE_INFINITY;
        for (double v : logs) {
            peak = Math.max(peak, v);
        }
        if (peak == Double.NEGATIVE_INFINITY) {
            return peak;
        }
        double sum = 0;
        for (double v : logs) {
            sum += v > peak - NOTHING ? Math.exp(v - peak) : 0;
        }
        return peak + Math.log(sum);
    }

    /** Levels beyond this from 0 are out of reach of every prior. */
    private double reach() {
        return REACH * total;
    }

    /** Log density of a level before what is seen of that thing, by all that is seen of the others. */
    private DoubleUnaryOperator logPrior(double[] logShared) {
        double scale = -logSum(logShared) - Math.log(own);
        DoubleUnaryOperator exact = u -> {
            double[] terms = new double[logShared.length];
            for (int j = 0; j < terms.length; j++) {
                terms[j] = logShared[j] + Normal.logDensity((u - shared[j]) / own);
            }
            return logSum(terms) + scale;
        };
        return new Smooth(exact, -2 * reach(), 2 * reach(), PRIOR_POINTS);
    }

    /**
     * Log density of thing i's level by all that is seen of the others, normalised; its own likelihood is left out.
     */
    public DoubleUnaryOperator logPrior(int i) {
        double[] others = logShared.clone();
        double[] mine = logMarginals.get(i);
        for (int j = 0; j < others.length; j++) {
            others[j] -= mine[j];
        }
        return logPrior(others);
    }

    /** Level of thing i by all that is seen; the integral is the evidence for its likelihood. */
    public Density member(int i) {
        DoubleUnaryOperator prior = logPrior(i);
        DoubleUnaryOperator seen = logLikelihoods.get(i);
        return density(u -> seen.applyAsDouble(u) + prior.applyAsDouble(u));
    }

    /** Level of one more thing, of which nothing is seen yet. */
    public Density another() {
        return density(logPrior(logShared));
    }

    /**
     * The shared level by all that is seen.
     *
     * @throws IllegalStateException when nothing is shared
     */
    public Density shared() {
        if (shared.length == 1) {
            throw new IllegalStateException("nothing is shared");
        }
        DoubleUnaryOperator log = new Smooth(
                m -> logShared[(int) Math.round((m - shared[0]) / (shared[1] - shared[0]))],
                shared[0],
                shared[shared.length - 1],
                shared.length);
        return Density.of(log, shared[0], shared[shared.length - 1]);
    }

    /** A density of a level, on a grid of its own. */
    public Density density(DoubleUnaryOperator logDensity) {
        return Density.of(logDensity, -2 * reach(), 2 * reach());
    }
}
