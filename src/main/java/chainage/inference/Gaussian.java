package chainage.inference;

import java.util.List;

/**
 * Several unknowns, jointly normal.
 *
 * <p>Of such a few hundred numbers at most: everything is worked out by Cholesky's way, without pivots.
 */
public final class Gaussian {
    private final double[] mean;
    private final double[][] covariance;

    Gaussian(double[] mean, double[][] covariance) {
        this.mean = mean;
        this.covariance = covariance;
    }

    /** How many unknowns. */
    int size() {
        return mean.length;
    }

    double[] mean() {
        return mean;
    }

    double[][] covariance() {
        return covariance;
    }

    /** Mean of a sum of the unknowns, each times so much. */
    public double mean(double[] of) {
        return Matrices.sum(of, mean);
    }

    /** Variance of a sum of the unknowns, each times so much. */
    public double variance(double[] of) {
        return covariance(of, of);
    }

    private double covariance(double[] a, double[] b) {
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            if (a[i] != 0) {
                sum += a[i] * leans(b, i);
            }
        }
        return sum;
    }

    /** Covariance of one unknown with a sum. */
    private double leans(double[] of, int unknown) {
        return Matrices.sum(of, covariance[unknown]);
    }

    /**
     * Some sums of the unknowns, told apart: sum k = mean k + Σ root[k][l] z_l, with z independent and standard normal.
     *
     * @param sums each a row of multipliers
     * @param own variance that the last sum has beside, all its own; 0 or more
     */
    public View view(List<double[]> sums, double own) {
        int n = sums.size();
        double[] means = new double[n];
        double[][] all = new double[n][n];
        for (int k = 0; k < n; k++) {
            means[k] = mean(sums.get(k));
            for (int l = 0; l <= k; l++) {
                all[k][l] = covariance(sums.get(k), sums.get(l));
                all[l][k] = all[k][l];
            }
        }
        all[n - 1][n - 1] += own;
        double[][] root = Matrices.root(all);
        double[][] leaning = new double[size()][n];
        for (int i = 0; i < size(); i++) {
            for (int k = 0; k < n; k++) {
                double left = leans(sums.get(k), i);
                for (int l = 0; l < k; l++) {
                    left -= root[k][l] * leaning[i][l];
                }
                leaning[i][k] = left / root[k][k];
            }
        }
        return new View(this, means, root, leaning);
    }

    /** Sums of unknowns, as {@link #view} makes them. */
    public static final class View {
        private final Gaussian unknowns;
        private final double[] means;
        private final double[][] root;
        private final double[][] leaning;

        private View(Gaussian unknowns, double[] means, double[][] root, double[][] leaning) {
            this.unknowns = unknowns;
            this.means = means;
            this.root = root;
            this.leaning = leaning;
        }

        /** Sum k where the independent scores before it, and its own where there is one more, are these. */
        public double at(int k, double[] scores) {
            double sum = means[k];
            for (int l = 0; l <= k && l < scores.length; l++) {
                sum += root[k][l] * scores[l];
            }
            return sum;
        }

        /** Spread of sum k that is left once the scores before it are known. */
        public double left(int k) {
            return root[k][k];
        }

        /** Spread of sum k. */
        public double spread(int k) {
            double sum = 0;
            for (int l = 0; l <= k; l++) {
                sum += root[k][l] * root[k][l];
            }
            return Math.sqrt(sum);
        }

        /**
         * All unknowns, once the scores are known to be so.
         *
         * @param mean of the scores
         * @param about their covariance; what is wider than before is taken to be as before, so that seeing never blurs
         */
        Gaussian told(double[] mean, double[][] about) {
            int n = unknowns.size();
            double[][] more = Matrices.atMostOne(about);
            double[] told = unknowns.mean.clone();
            double[][] covariance = new double[n][];
            for (int i = 0; i < n; i++) {
                covariance[i] = unknowns.covariance[i].clone();
                for (int k = 0; k < mean.length; k++) {
                    told[i] += leaning[i][k] * mean[k];
                }
            }
            for (int i = 0; i < n; i++) {
                for (int j = 0; j < n; j++) {
                    double sum = 0;
                    for (int k = 0; k < mean.length; k++) {
                        for (int l = 0; l < mean.length; l++) {
                            sum += leaning[i][k] * (more[k][l] - (k == l ? 1 : 0)) * leaning[j][l];
                        }
                    }
                    covariance[i][j] += sum;
                }
            }
            return new Gaussian(told, covariance);
        }
    }
}
