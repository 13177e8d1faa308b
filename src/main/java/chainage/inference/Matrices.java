package chainage.inference;

import java.util.Arrays;

/** Small symmetric matrices, by rows. */
final class Matrices {
    /** Turns until nothing is left beside the diagonal that a double could tell; a few do. */
    private static final int SWEEPS = 12;

    private Matrices() {}

    /** A vector of as many as the matrix has rows. */
    static double[] times(double[][] matrix, double[] vector) {
        double[] product = new double[matrix.length];
        for (int i = 0; i < matrix.length; i++) {
            product[i] = sum(matrix[i], vector);
        }
        return product;
    }

    /** Of the values, each times what stands in its place. */
    static double sum(double[] of, double[] values) {
        double sum = 0;
        for (int i = 0; i < of.length; i++) {
            sum += of[i] * values[i];
        }
        return sum;
    }

    /** The lower triangular matrix that times its transpose is this one; positive definite. */
    static double[][] root(double[][] m) {
        int n = m.length;
        double[][] root = new double[n][n];
        for (int i = 0; i < n; i++) {
            for (int j = 0; j <= i; j++) {
                double sum = m[i][j];
                for (int k = 0; k < j; k++) {
                    sum -= root[i][k] * root[j][k];
                }
                if (i != j) {
                    root[i][j] = sum / root[j][j];
                } else if (sum > 0) {
                    root[i][i] = Math.sqrt(sum);
                } else {
                    throw new IllegalArgumentException("not positive definite: " + sum + " left of row " + i);
                }
            }
        }
        return root;
    }

    /** The inverse of a positive definite matrix. */
    static double[][] inverse(double[][] m) {
        int n = m.length;
        double[][] root = root(m);
        double[][] undone = new double[n][n];
        for (int i = 0; i < n; i++) {
            undone[i][i] = 1 / root[i][i];
            for (int j = 0; j < i; j++) {
                double sum = 0;
                for (int k = j; k < i; k++) {
                    sum -= root[i][k] * undone[k][j];
                }
                undone[i][j] = sum / root[i][i];
            }
        }
        double[][] inverse = new double[n][n];
        for (int i = 0; i < n; i++) {
            for (int j = 0; j <= i; j++) {
                double sum = 0;
                for (int k = i; k < n; k++) {
                    sum += undone[k][i] * undone[k][j];
                }
                inverse[i][j] = sum;
                inverse[j][i] = sum;
            }
        }
        return inverse;
    }

    /**
     * A matrix as its main values along axes of its own.
     *
     * @param axes in columns, of length 1 and upright on each other
     */
    @SuppressWarnings("ArrayRecordComponent") // made once and never compared
    record Main(double[] values, double[][] axes) {
        /** The matrix of the same axes with other main values. */
        double[][] with(double[] others) {
            int n = others.length;
            double[][] matrix = new double[n][n];
            for (int i = 0; i < n; i++) {
                for (int j = 0; j < n; j++) {
                    for (int k = 0; k < n; k++) {
                        matrix[i][j] += axes[i][k] * others[k] * axes[j][k];
                    }
                }
            }
            return matrix;
        }
    }

    /** By Jacobi's turns. */
    static Main main(double[][] m) {
        int n = m.length;
        double[][] a = new double[n][];
        double[][] turned = new double[n][n];
        for (int i = 0; i < n; i++) {
            a[i] = m[i].clone();
            turned[i][i] = 1;
        }
        for (int sweep = 0; sweep < SWEEPS; sweep++) {
            for (int p = 0; p < n; p++) {
                for (int q = p + 1; q < n; q++) {
                    if (Math.abs(a[p][q]) > 1e-14) {
                        turn(a, turned, p, q);
                    }
                }
            }
        }
        double[] values = new double[n];
        for (int i = 0; i < n; i++) {
            values[i] = a[i][i];
        }
        return new Main(values, turned);
    }

    /** The matrix with all that is above 1 of its main values set to 1. */
    static double[][] atMostOne(double[][] m) {
        Main main = main(m);
        return main.with(Arrays.stream(main.values()).map(v -> Math.min(1, v)).toArray());
    }

    private static void turn(double[][] a, double[][] turned, int p, int q) {
        double theta = (a[q][q] - a[p][p]) / (2 * a[p][q]);
        double t = (theta < 0 ? -1 : 1) / (Math.abs(theta) + Math.hypot(theta, 1));
        double c = 1 / Math.hypot(t, 1);
        double s = t * c;
        for (double[] row : a) {
            double x = row[p];
            row[p] = c * x - s * row[q];
            row[q] = s * x + c * row[q];
        }
        double[] was = a[p].clone();
        for (int k = 0; k < was.length; k++) {
            a[p][k] = c * was[k] - s * a[q][k];
            a[q][k] = s * was[k] + c * a[q][k];
        }
        for (double[] row : turned) {
            double x = row[p];
            row[p] = c * x - s * row[q];
            row[q] = s * x + c * row[q];
        }
    }
}
