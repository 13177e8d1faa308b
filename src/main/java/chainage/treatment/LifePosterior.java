package chainage.treatment;

import chainage.exposure.Leaning;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The unknowns that all products share, summed over: how wet and dirty roads count with this rider, the spread of single
 * lives, and the chance that an end goes by unremarked.
 *
 * <p>The first three are searched for their most likely values and then taken at three points each about them, weighed by
 * what each is worth there (Gauss and Hermite's points, corrected by the true density; exact where that is a bell times a
 * polynomial of the fifth degree). The last is summed over seven chances, typical lives over a grid. Nothing is drawn.
 */
final class LifePosterior {
    private static final double[] AT = {-Math.sqrt(3), 0, Math.sqrt(3)};
    private static final double[] WORTH = {1 / 6.0, 2 / 3.0, 1 / 6.0};
    private static final int SWEEPS = 4;

    private final LifePrior prior;
    private final List<LifeFamily> families;
    private final double[] unremarked;
    private final List<Point> points = new ArrayList<>();
    private final Leaning leaning;

    /**
     * One value of the unknowns.
     *
     * @param weight its share of the probability
     * @param chances shares of the chances of an end unremarked, there
     * @param families by family: what is known of its products
     * @param scale by which the weights of each family are to be multiplied, by chance, for their sum to be {@code weight}
     */
    @SuppressWarnings("ArrayRecordComponent") // columns of sums; nobody holds one against another
    record Point(
            LifeUnknowns unknowns,
            double weight,
            double[] chances,
            List<LifeFamily.At> families,
            List<double[]> scale) {}

    /**
     * Sums over the unknowns.
     *
     * @param families whatever their order
     * @param seen whether any closed life was seen at all
     */
    LifePosterior(LifePrior prior, List<LifeFamily> families, boolean seen) {
        this.prior = prior;
        this.families = List.copyOf(families);
        unremarked = prior.unremarkedWeights();
        double[] mode = new double[LifeUnknowns.COUNT];
        double[] spread = {1, 1, 1};
        fit(mode);
        if (seen) {
            search(mode, spread);
            fit(mode);
        }
        double[] logs = new double[27];
        double[][] scores = new double[27][];
        List<Summed> all = new ArrayList<>();
        for (int i = 0; i < 27; i++) {
            int[] digits = {i % 3, i / 3 % 3, i / 9};
            double[] x = new double[LifeUnknowns.COUNT];
            double worth = 0;
            for (int d = 0; d < LifeUnknowns.COUNT; d++) {
                double u = AT[digits[d]];
                x[d] = mode[d] + spread[d] * u;
                worth += Math.log(WORTH[digits[d]]) + u * u / 2;
            }
            Summed s = summed(x);
            all.add(s);
            scores[i] = x;
            logs[i] = s.log() + worth;
        }
        double most = Arrays.stream(logs).max().orElseThrow();
        double sum = Arrays.stream(logs).map(l -> Math.exp(l - most)).sum();
        double wet = 0;
        double grit = 0;
        for (int i = 0; i < 27; i++) {
            double weight = Math.exp(logs[i] - most) / sum;
            wet += weight * scores[i][0];
            grit += weight * scores[i][1];
            points.add(all.get(i).point(weight, LifeUnknowns.at(scores[i], prior)));
        }
        leaning = seen || !prior.isTable()
                ? LifeUnknowns.at(new double[] {wet, grit, 0}, prior).leaning()
                : Leaning.NONE;
    }

    /** All that is known at some scores, not yet normalised. */
    @SuppressWarnings("ArrayRecordComponent") // columns of sums; nobody holds one against another
    private record Summed(double log, double[] chances, List<LifeFamily.At> families, List<double[]> scale) {
        Point point(double weight, LifeUnknowns u) {
            for (double[] s : scale) {
                for (int e = 0; e < s.length; e++) {
                    s[e] *= weight;
                }
            }
            return new Point(u, weight, chances, families, scale);
        }
    }

    private void fit(double[] scores) {
        LifeUnknowns u = LifeUnknowns.at(scores, prior);
        families.forEach(f -> f.fit(u, unremarked));
    }

    private Summed summed(double[] scores) {
        LifeUnknowns u = LifeUnknowns.at(scores, prior);
        double log = 0;
        for (double x : scores) {
            log -= x * x / 2;
        }
        List<LifeFamily.At> at = new ArrayList<>();
        double[] chances = unremarked.clone();
        for (LifeFamily f : families) {
            LifeFamily.At a = f.at(u);
            at.add(a);
            log += a.log();
            log += weigh(chances, a.evidence());
        }
        double sum = Arrays.stream(chances).sum();
        for (int e = 0; e < chances.length; e++) {
            chances[e] /= sum;
        }
        List<double[]> scale = new ArrayList<>();
        for (LifeFamily.At a : at) {
            double[] s = new double[chances.length];
            for (int e = 0; e < s.length; e++) {
                s[e] = a.evidence()[e] > 0 ? chances[e] / a.evidence()[e] : 0;
            }
            scale.add(s);
        }
        return new Summed(log + Math.log(sum), chances, at, scale);
    }

    /** Weighs the chances by a family's evidence; the log of its scale, which is left out. */
    private static double weigh(double[] chances, double[] evidence) {
        double most = Arrays.stream(evidence).max().orElseThrow();
        for (int e = 0; e < chances.length; e++) {
            chances[e] *= evidence[e] / most;
        }
        return Math.log(most);
    }

    /** The log of the density of some scores alone, up to a constant. */
    private double density(double[] scores) {
        LifeUnknowns u = LifeUnknowns.at(scores, prior);
        double[] log = new double[1];
        for (double x : scores) {
            log[0] -= x * x / 2;
        }
        double[] chances = unremarked.clone();
        for (LifeFamily f : families) {
            double[] evidence = f.evidence(u, log);
            log[0] += weigh(chances, evidence);
        }
        return log[0] + Math.log(Arrays.stream(chances).sum());
    }

    /** One unknown after the other by the parabola through three points, until nothing moves. */
    private void search(double[] mode, double[] spread) {
        double best = density(mode);
        double[] step = {0.5, 0.5, 0.5};
        for (int sweep = 0; sweep < SWEEPS; sweep++) {
            double moved = 0;
            for (int d = 0; d < mode.length; d++) {
                double here = mode[d];
                double h = step[d];
                mode[d] = here - h;
                double low = density(mode);
                mode[d] = here + h;
                double high = density(mode);
                double bend = (low + high - 2 * best) / (h * h);
                double go = bend < -0.1 ? (low - high) / (2 * h) / bend : Math.copySign(1, high - low);
                go = Math.max(-1.2, Math.min(1.2, go));
                spread[d] = bend < -0.1 ? Math.max(0.05, Math.min(1, 1 / Math.sqrt(-bend))) : 1;
                step[d] = spread[d] / 2;
                mode[d] = here + go;
                double there = density(mode);
                double most = Math.max(Math.max(low, high), there);
                if (most <= best) {
                    mode[d] = here;
                } else {
                    mode[d] = there == most ? here + go : high == most ? here + h : here - h;
                    moved = Math.max(moved, Math.abs(mode[d] - here) / spread[d]);
                    best = most;
                }
            }
            if (moved < 0.2) {
                return;
            }
            if (moved > 1) {
                fit(mode);
                best = density(mode);
            }
        }
    }

    /** What the rider's roads count, as the middle of what is known. */
    Leaning leaning() {
        return leaning;
    }

    /** The values of the unknowns, with their weights. */
    List<Point> points() {
        return points;
    }

    /** Probability of each chance of an end unremarked, before anything is seen. */
    double[] unremarked() {
        return unremarked;
    }
}
