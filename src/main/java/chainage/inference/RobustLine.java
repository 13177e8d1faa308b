package chainage.inference;

import java.util.ArrayList;
import java.util.List;

/**
 * Values that are sums of a few unknowns, each times so much, and err by Student's t with an unknown scale, so that a
 * value far off weighs little. The scale is summed over a grid; at each of its points the unknowns are normal about their
 * most likely values, as wide as the curvature there says. Nothing is drawn: the same values give the same answer.
 *
 * <p>Inside, the unknowns are told apart: each is what it is beyond those before it.
 */
@SuppressWarnings("ArrayRecordComponent") // vectors and matrices, made once and never compared
public final class RobustLine {
    private static final double DEGREES = 4;
    private static final int ROUNDS = 60;
    private static final double STILL = 1e-10;
    /** A value of Student's t tells as much as this many of a normal one (Fisher's information, (ν + 1) / (ν + 3)). */
    private static final double TELLS = (DEGREES + 1) / (DEGREES + 3);

    private final List<Point> points;
    private final double[][] beyond;

    private RobustLine(List<Point> points, double[][] beyond) {
        this.points = List.copyOf(points);
        this.beyond = beyond;
    }

    /**
     * A value.
     *
     * @param leaning what each unknown is multiplied by
     * @param value what was seen
     * @param error standard deviation of its own, which the unknown scale comes on top of
     */
    public record Row(double[] leaning, double value, double error) {}

    /**
     * What is known of the unknowns before: they are jointly normal.
     *
     * @param means of the unknowns
     * @param covariance of them, positive definite
     * @param scale middle of the unknown scale
     * @param scaleSpread how far it may be off, in the log
     */
    public record Prior(double[] means, double[][] covariance, double scale, double scaleSpread) {}

    /** The same with the unknowns told apart: independent, with these spreads. */
    private record Apart(double[] means, double[] spreads, double scale, double scaleSpread) {
        static Apart of(Prior prior, double[][] root) {
            int n = root.length;
            double[] means = new double[n];
            double[] spreads = new double[n];
            for (int i = 0; i < n; i++) {
                spreads[i] = root[i][i];
                means[i] = prior.means()[i];
                for (int j = 0; j < i; j++) {
                    means[i] -= root[i][j] / root[j][j] * means[j];
                }
            }
            return new Apart(means, spreads, prior.scale(), prior.scaleSpread());
        }
    }

    /** One scale, how likely it is, and the unknowns, told apart, where it holds. */
    private record Point(double scale, double weight, double[] mean, double[][] precision, double[][] covariance) {}

    public static RobustLine of(Prior joint, List<Row> seen) {
        double[][] root = Matrices.root(joint.covariance());
        Apart prior = Apart.of(joint, root);
        double[][] beyond = new double[root.length][root.length];
        for (int i = 0; i < root.length; i++) {
            for (int j = 0; j <= i; j++) {
                beyond[i][j] = root[i][j] / root[j][j];
            }
        }
        List<Row> rows = seen.stream()
                .map(r -> new Row(apart(r.leaning(), beyond), r.value(), r.error()))
                .toList();
        List<Point> points = new ArrayList<>();
        List<Double> logs = new ArrayList<>();
        double most = Double.NEGATIVE_INFINITY;
        for (int k = -4; k <= 6; k++) {
            double z = k / 2.0;
            double scale = prior.scale() * Math.exp(prior.scaleSpread() * z);
            double[] mean = mode(prior, rows, scale);
            double[][] precision = curvature(prior, rows, scale, mean);
            double[][] curved = Matrices.root(precision);
            double log = Normal.logDensity(z);
            for (int i = 0; i < mean.length; i++) {
                log += Normal.logDensity((mean[i] - prior.means()[i]) / prior.spreads()[i]) - Math.log(curved[i][i]);
            }
            for (Row r : rows) {
                double spread = Math.hypot(scale, r.error());
                log += Student.logDensity((r.value() - Matrices.sum(r.leaning(), mean)) / spread) - Math.log(spread);
            }
            most = Math.max(most, log);
            logs.add(log);
            points.add(new Point(scale, 0, mean, precision, Matrices.inverse(precision)));
        }
        double total = 0;
        for (double log : logs) {
            total += Math.exp(log - most);
        }
        List<Point> weighed = new ArrayList<>();
        for (int i = 0; i < points.size(); i++) {
            Point p = points.get(i);
            double weight = Math.exp(logs.get(i) - most) / total;
            weighed.add(new Point(p.scale(), weight, p.mean(), p.precision(), p.covariance()));
        }
        return new RobustLine(weighed, beyond);
    }

    /** A sum of the unknowns as one of those that are told apart. */
    private static double[] apart(double[] of, double[][] beyond) {
        double[] apart = new double[of.length];
        for (int i = 0; i < of.length; i++) {
            for (int j = 0; of[i] != 0 && j <= i; j++) {
                apart[j] += of[i] * beyond[i][j];
            }
        }
        return apart;
    }

    private static double[] mode(Apart prior, List<Row> rows, double scale) {
        int n = prior.means().length;
        double[] mean = prior.means().clone();
        for (int round = 0; round < ROUNDS; round++) {
            double[][] precision = diagonal(prior);
            double[] pull = new double[n];
            for (int i = 0; i < n; i++) {
                pull[i] = prior.means()[i] * precision[i][i];
            }
            for (Row r : rows) {
                double spread = Math.hypot(scale, r.error());
                double z = (r.value() - Matrices.sum(r.leaning(), mean)) / spread;
                double weight = (DEGREES + 1) / (DEGREES + z * z) / (spread * spread);
                add(precision, r.leaning(), weight);
                for (int i = 0; i < n; i++) {
                    pull[i] += weight * r.leaning()[i] * r.value();
                }
            }
            double[] next = Matrices.times(Matrices.inverse(precision), pull);
            double moved = 0;
            for (int i = 0; i < n; i++) {
                moved = Math.max(moved, Math.abs(next[i] - mean[i]) / prior.spreads()[i]);
            }
            mean = next;
            if (moved < STILL) {
                break;
            }
        }
        return mean;
    }

    /** Curvature of the log density; a value so far off that it would bend it the other way tells nothing. */
    private static double[][] curvature(Apart prior, List<Row> rows, double scale, double[] mean) {
        double[][] precision = diagonal(prior);
        for (Row r : rows) {
            double spread = Math.hypot(scale, r.error());
            double z = (r.value() - Matrices.sum(r.leaning(), mean)) / spread;
            double bend = (DEGREES + 1) * (DEGREES - z * z) / Math.pow(DEGREES + z * z, 2) / (spread * spread);
            add(precision, r.leaning(), Math.max(0, bend));
        }
        return precision;
    }

    private static double[][] diagonal(Apart prior) {
        int n = prior.means().length;
        double[][] precision = new double[n][n];
        for (int i = 0; i < n; i++) {
            precision[i][i] = 1 / (prior.spreads()[i] * prior.spreads()[i]);
        }
        return precision;
    }

    private static void add(double[][] precision, double[] leaning, double weight) {
        for (int i = 0; i < leaning.length; i++) {
            for (int j = 0; leaning[i] != 0 && j < leaning.length; j++) {
                precision[i][j] += weight * leaning[i] * leaning[j];
            }
        }
    }

    private static double variance(double[][] covariance, double[] of) {
        return Matrices.sum(of, Matrices.times(covariance, of));
    }

    /** Mean of a sum of the unknowns, each times so much. */
    public double mean(double[] of) {
        double[] apart = apart(of, beyond);
        return points.stream()
                .mapToDouble(p -> p.weight() * Matrices.sum(apart, p.mean()))
                .sum();
    }

    /** Mean of the scale. */
    public double scale() {
        return points.stream().mapToDouble(p -> p.weight() * p.scale()).sum();
    }

    /** Standard deviation of a sum of the unknowns. */
    public double spread(double[] of) {
        return Math.sqrt(covariance(of, of));
    }

    /** Covariance of two sums of the unknowns. */
    public double covariance(double[] of, double[] other) {
        double mean = mean(of);
        double otherMean = mean(other);
        double[] apart = apart(of, beyond);
        double[] otherApart = apart(other, beyond);
        return points.stream()
                .mapToDouble(p -> p.weight()
                        * (Matrices.sum(apart, Matrices.times(p.covariance(), otherApart))
                                + (Matrices.sum(apart, p.mean()) - mean)
                                        * (Matrices.sum(otherApart, p.mean()) - otherMean)))
                .sum();
    }

    /** Probability that a sum of the unknowns is at most so much. */
    public double atMost(double[] of, double value) {
        double[] apart = apart(of, beyond);
        return points.stream()
                .mapToDouble(p -> p.weight()
                        * Normal.probability(
                                (value - Matrices.sum(apart, p.mean())) / Math.sqrt(variance(p.covariance(), apart))))
                .sum();
    }

    /** The value that a sum of the unknowns stays below with this probability. */
    public double quantile(double[] of, double probability) {
        double mean = mean(of);
        double spread = spread(of);
        double low = mean - 20 * spread;
        double high = mean + 20 * spread;
        for (int i = 0; i < 80; i++) {
            double middle = (low + high) / 2;
            if (atMost(of, middle) < probability) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return (low + high) / 2;
    }

    /** Standard deviation that a sum of the unknowns would have, once some more values are seen, whatever they are. */
    public double spreadAfter(double[] of, List<Row> more) {
        double variance = 0;
        double[] asked = apart(of, beyond);
        for (Point p : points) {
            double[][] precision = new double[p.precision().length][];
            for (int i = 0; i < precision.length; i++) {
                precision[i] = p.precision()[i].clone();
            }
            for (Row r : more) {
                add(precision, apart(r.leaning(), beyond), TELLS / (p.scale() * p.scale() + r.error() * r.error()));
            }
            variance += p.weight() * variance(Matrices.inverse(precision), asked);
        }
        return Math.sqrt(variance);
    }
}
