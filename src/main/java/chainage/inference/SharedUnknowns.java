package chainage.inference;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Unknowns that several things have in common, and what each of these things says of them.
 *
 * <p>Beforehand they are independent and normal. What one thing says is kept as a normal factor: that by which the
 * mean and covariance of all unknowns, with everything else known of them, become those that the thing's own likelihood
 * makes of them (expectation propagation: Minka, UAI 2001). So each thing can be asked anew against all that the others
 * say. Exact where likelihoods are normal, and for a single thing.
 */
public final class SharedUnknowns {
    private final double[][] prior;
    private final double[] pull;
    private final List<double[][]> precisions = new ArrayList<>();
    private final List<double[]> shifts = new ArrayList<>();

    /**
     * Unknowns of which no thing says anything yet.
     *
     * @param means of each
     * @param spreads of each about its mean, above 0
     * @param things how many there are
     */
    public SharedUnknowns(double[] means, double[] spreads, int things) {
        prior = new double[spreads.length][spreads.length];
        pull = new double[spreads.length];
        for (int i = 0; i < spreads.length; i++) {
            prior[i][i] = 1 / (spreads[i] * spreads[i]);
            pull[i] = means[i] / (spreads[i] * spreads[i]);
        }
        for (int k = 0; k < things; k++) {
            precisions.add(new double[spreads.length][spreads.length]);
            shifts.add(new double[spreads.length]);
        }
    }

    /** By all things. */
    public Gaussian byAll() {
        return by(-1);
    }

    /** By all things but one. */
    public Gaussian byOthers(int thing) {
        return by(thing);
    }

    private Gaussian by(int without) {
        int n = prior.length;
        double[][] precision = new double[n][];
        Arrays.setAll(precision, i -> prior[i].clone());
        double[] shift = pull.clone();
        for (int k = 0; k < shifts.size(); k++) {
            if (k != without) {
                for (int i = 0; i < n; i++) {
                    shift[i] += shifts.get(k)[i];
                    for (int j = 0; j < n; j++) {
                        precision[i][j] += precisions.get(k)[i][j];
                    }
                }
            }
        }
        double[][] covariance = Matrices.inverse(precision);
        return new Gaussian(times(covariance, shift), covariance);
    }

    /**
     * Takes what a thing says in place of what it said before.
     *
     * @param view of the thing, made of what the others say
     * @param mean of the view's scores, by what the others say and the thing's own likelihood together
     * @param about their covariance
     */
    public void says(int thing, Gaussian.View view, double[] mean, double[][] about) {
        Gaussian others = byOthers(thing);
        Gaussian told = view.told(mean, about);
        double[][] before = Matrices.inverse(others.covariance());
        double[][] after = Matrices.inverse(told.covariance());
        double[] was = times(before, others.mean());
        double[] is = times(after, told.mean());
        for (int i = 0; i < is.length; i++) {
            shifts.get(thing)[i] = is[i] - was[i];
            for (int j = 0; j < is.length; j++) {
                precisions.get(thing)[i][j] = after[i][j] - before[i][j];
            }
        }
    }

    private static double[] times(double[][] m, double[] v) {
        double[] product = new double[v.length];
        for (int i = 0; i < v.length; i++) {
            for (int j = 0; j < v.length; j++) {
                product[i] += m[i][j] * v[j];
            }
        }
        return product;
    }
}
