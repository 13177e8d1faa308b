package chainage.inference;

/**
 * Points that stand for independent standard normal scores: the same ones each time, spread evenly, in pairs that lie
 * opposite, and with exactly mean 0, spread 1 and no leaning between scores. So the mean over them is exact for every
 * polynomial up to the third degree.
 */
public final class Lattice {
    private Lattice() {}

    /**
     * Points, row by row. The last column holds no score but even shares between 0 and 1.
     *
     * @param count even; with no scores and no shares wanted 1 does
     * @param scores how many a point has
     */
    public static double[][] points(int count, int scores) {
        double[] step = steps(scores + 1);
        double[][] points = new double[count][scores + 1];
        for (int i = 0; i < count; i++) {
            boolean opposite = i >= (count + 1) / 2;
            int pair = opposite ? i - (count + 1) / 2 : i;
            for (int k = 0; k <= scores; k++) {
                double share = (0.5 + (pair + 1) * step[k]) % 1;
                share = opposite ? 1 - share : share;
                points[i][k] = k == scores ? share : Normal.quantile(share);
            }
        }
        return scores == 0 ? points : standard(points, scores);
    }

    /** Powers of the root of x^(n+1) = x + 1, which fill n dimensions evenly, as the golden section fills one. */
    private static double[] steps(int n) {
        double root = 2;
        for (int i = 0; i < 60; i++) {
            root = Math.pow(1 + root, 1.0 / (n + 1));
        }
        double[] steps = new double[n];
        for (int k = 0; k < n; k++) {
            steps[k] = Math.pow(root, -(k + 1)) % 1;
        }
        return steps;
    }

    private static double[][] standard(double[][] points, int scores) {
        double[][] about = new double[scores][scores];
        for (double[] p : points) {
            for (int i = 0; i < scores; i++) {
                for (int j = 0; j < scores; j++) {
                    about[i][j] += p[i] * p[j] / points.length;
                }
            }
        }
        double[][] root = Matrices.root(about);
        for (double[] p : points) {
            for (int i = 0; i < scores; i++) {
                double left = p[i];
                for (int j = 0; j < i; j++) {
                    left -= root[i][j] * p[j];
                }
                p[i] = left / root[i][i];
            }
        }
        return points;
    }
}
