package chainage.wear;

import chainage.inference.Density;
import chainage.inference.Gaussian;
import chainage.inference.Lattice;
import chainage.inference.Normal;
import chainage.inference.TwoLevel;
import chainage.ledger.Reading;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.jspecify.annotations.Nullable;

/**
 * One chain's readings weighed against all that is known of the unknowns that it shares with others.
 *
 * <p>The pace of the chain is gone through on an even grid; all else, what wet and grit count, what its tools read too
 * long and where it started, by the points of a lattice. With neither there is one point, and the integral over the pace
 * is as good as exact.
 */
final class Weighed {
    /** Points of the pace. A mixture of slices is smoother than any of them, so that no more are needed. */
    private static final int PACES = 121;
    /** A log density so far below its peak is nothing: one in nine million of the peak. */
    private static final double NOTHING = 16;

    private static final int COARSE = 61;
    private static final int TOOLS = Reading.Tool.values().length;

    private final WearModel.Prior prior;
    private final List<ReadingSeen> seen;
    private final Likelihood.Sum sum;
    private final Likelihood.One[] read;
    private final Gaussian.View view;
    /** Which of the shared unknowns each score of the view is of; the pace comes last. */
    private final List<Integer> of;

    private final List<Point> points = new ArrayList<>();
    private double from;
    private double step;

    /** A point of the lattice, with the log density of the pace there. */
    private static final class Point {
        final double[] scores;
        final double start;
        double wetter = 1;
        double grittier = 1;
        final double[] bias = new double[TOOLS];
        double logWeight;
        double[] log = {};
        double share;

        Point(double[] scores, double start, double logWeight) {
            this.scores = scores;
            this.start = start;
            this.logWeight = logWeight;
        }
    }

    /**
     * Weighs a chain's readings.
     *
     * @param seen those to be weighed, some or all of the chain's
     * @param count points of the lattice, even
     * @param negligible where a worn start cannot have more than this chance against a new one it is left out
     */
    Weighed(
            WearModel.Prior prior,
            WearUnknowns.Part part,
            boolean used,
            List<ReadingSeen> seen,
            int count,
            double negligible) {
        this.prior = prior;
        this.seen = seen;
        this.view = part.view();
        this.of = part.of();
        this.sum = new Likelihood.Sum(prior.heavy());
        this.read = read(0);
        int scores = of.size();
        double fresh = Double.NEGATIVE_INFINITY;
        if (!used) {
            fresh = weigh(Lattice.points(scores == 0 ? 1 : count, scores), null, 0);
        }
        if (used ? prior.start() > 0 : mayBeWorn(fresh, negligible)) {
            double chance = used ? 0 : Math.log(prior.worn()) - Math.log1p(-prior.worn());
            weigh(Lattice.points(count, scores), starts(), chance);
        } else if (used) {
            weigh(Lattice.points(scores == 0 ? 1 : count, scores), null, 0);
        }
        share();
    }

    private double startDensity(double start) {
        double most = WearModel.LONGEST / prior.start();
        return -start / prior.start() - Math.log(prior.start()) - Math.log(-Math.expm1(-most));
    }

    /**
     * Adds points and weighs them.
     *
     * @param open where the chain may have started; null for a new one
     * @param chance log of how likely that is beforehand
     * @return log of how well all of them explain the readings
     */
    private double weigh(double[][] lattice, @Nullable Density open, double chance) {
        List<Point> added = new ArrayList<>();
        for (double[] row : lattice) {
            int scores = row.length - 1;
            double start = open == null ? 0 : open.quantile(row[scores]);
            double weight = open == null ? 0 : startDensity(start) - Math.log(open.at(start));
            Point p = new Point(Arrays.copyOf(row, scores), start, chance + weight - Math.log(lattice.length));
            for (int k = 0; k < scores; k++) {
                set(p, of.get(k), view.at(k, p.scores));
            }
            added.add(p);
        }
        if (points.isEmpty()) {
            range(added);
        }
        double[] pace = new double[PACES];
        for (int i = 0; i < PACES; i++) {
            pace[i] = Math.exp(from + i * step);
        }
        int last = of.size();
        double spread = view.left(last);
        double[] logs = new double[added.size()];
        double[] before = new double[PACES];
        double[] x = new double[seen.size()];
        Likelihood.Columns columns = new Likelihood.Columns(prior.heavy(), PACES);
        for (int j = 0; j < logs.length; j++) {
            Point p = added.get(j);
            double mean = view.at(last, p.scores);
            for (int k = 0; k < x.length; k++) {
                x[k] = seen.get(k).expected().percent(p.wetter, p.grittier);
            }
            for (int i = 0; i < PACES; i++) {
                double z = (from + i * step - mean) / spread;
                before[i] = -z * z / 2;
            }
            p.log = new double[PACES];
            columns.weigh(unbiased(p), before, p.start, pace, x, p.log);
            p.logWeight += TwoLevel.logSum(p.log) + Math.log(step / spread);
            logs[j] = p.logWeight;
        }
        points.addAll(added);
        return TwoLevel.logSum(logs);
    }

    private void set(Point p, int unknown, double value) {
        if (unknown == WearUnknowns.WET) {
            p.wetter = Math.exp(value);
        } else if (unknown == WearUnknowns.GRIT) {
            p.grittier = Math.exp(value);
        } else {
            p.bias[unknown - WearUnknowns.TOOLS] = value;
        }
    }

    /** The readings, with so much doubt more. */
    private Likelihood.One[] read(double doubt) {
        return seen.stream().map(s -> Likelihood.One.of(s.reading(), doubt)).toArray(Likelihood.One[]::new);
    }

    /** The readings, less what the tools read too long there. */
    private Likelihood.One[] unbiased(Point p) {
        Likelihood.One[] ones = new Likelihood.One[read.length];
        for (int k = 0; k < ones.length; k++) {
            double bias = p.bias[WearUnknowns.place(Likelihood.tool(seen.get(k).reading()))];
            ones[k] = new Likelihood.One(read[k].place() - bias, read[k].error(), read[k].side());
        }
        return ones;
    }

    /** Log of the readings' likelihood with the tools' bias as a part of their errors, so that no point is left out. */
    private final class Broad {
        private final Likelihood.One[] ones = read(doubt());
        private final double[] expected =
                seen.stream().mapToDouble(ReadingSeen::expectedPercent).toArray();
        private final double middle = view.at(of.size(), new double[of.size()]);
        private final double spread = view.spread(of.size());

        double at(double start, double logPace) {
            double z = (logPace - middle) / spread;
            double pace = Math.exp(logPace);
            sum.begin(-z * z / 2);
            for (int k = 0; k < ones.length; k++) {
                sum.add(ones[k], start + pace * expected[k]);
            }
            return sum.log();
        }
    }

    private double doubt() {
        double most = 0;
        for (int k = 0; k < of.size(); k++) {
            most = of.get(k) >= WearUnknowns.TOOLS ? Math.max(most, view.spread(k)) : most;
        }
        return most;
    }

    /** The paces worth going through at any of the points. */
    private void range(List<Point> points) {
        Broad broad = new Broad();
        double middle = broad.middle;
        double reach = 8 * broad.spread;
        boolean anywhere = points.stream().anyMatch(p -> p.start > 0);
        DoubleUnaryOperator log = anywhere
                ? u -> {
                    double[] terms = new double[9];
                    for (int i = 0; i < terms.length; i++) {
                        terms[i] = broad.at(points.get(i * (points.size() - 1) / 8).start, u);
                    }
                    return TwoLevel.logSum(terms);
                }
                : u -> broad.at(0, u);
        double[] ends = Density.support(log, middle - reach, middle + reach, NOTHING);
        double less = 0;
        double more = 0;
        for (ReadingSeen s : seen) {
            double table = s.expectedPercent();
            for (Point p : points) {
                double shift = table <= 0 ? 0 : Math.log(s.expected().percent(p.wetter, p.grittier) / table);
                less = Math.max(less, shift);
                more = Math.max(more, -shift);
            }
        }
        from = ends[0] - less;
        step = (ends[1] + more - from) / (PACES - 1);
    }

    /** Where a chain that had run before may have started, by its readings: a rough density, evened out afterwards. */
    private Density starts() {
        Broad broad = new Broad();
        double reach = 5 * broad.spread;
        // The same for every start.
        double[] pace = new double[COARSE];
        double[] before = new double[COARSE];
        for (int i = 0; i < COARSE; i++) {
            double logPace = broad.middle + reach * (2.0 * i / (COARSE - 1) - 1);
            double z = (logPace - broad.middle) / broad.spread;
            pace[i] = Math.exp(logPace);
            before[i] = -z * z / 2;
        }
        double[] terms = new double[COARSE];
        Likelihood.Columns columns = new Likelihood.Columns(prior.heavy(), COARSE);
        DoubleUnaryOperator byStart = b -> {
            columns.weigh(broad.ones, before, b, pace, broad.expected, terms);
            return TwoLevel.logSum(terms) + startDensity(b);
        };
        return Density.of(byStart, 0, WearModel.LONGEST);
    }

    /**
     * Whether a worn start could explain the readings so much better that it must be reckoned with. It explains them no
     * better than perfectly, and one of them has to say where it started.
     *
     * @param fresh log of how well a new chain explains them
     * @param negligible chance below which it need not be
     */
    private boolean mayBeWorn(double fresh, double negligible) {
        if (prior.worn() == 0 || prior.start() == 0 || (seen.isEmpty() && negligible > 0)) {
            return false;
        }
        double sharpest = prior.start();
        for (ReadingSeen s : seen) {
            if (s.reading() instanceof Reading.Elongation e) {
                // The integral of Student's density, the peak of which is 1; that of the normal one is less.
                sharpest = Math.min(sharpest, e.errorPercent() * 8 / 3);
            }
        }
        double best = Math.log(prior.worn() * sharpest / prior.start()) - Normal.logDensity(0);
        return best - fresh > Math.log(negligible);
    }

    private void share() {
        double[] logs = points.stream().mapToDouble(p -> p.logWeight).toArray();
        double all = TwoLevel.logSum(logs);
        points.forEach(p -> p.share = Math.exp(p.logWeight - all));
    }

    Elongation elongation() {
        List<Elongation.Slice> slices = new ArrayList<>();
        for (Point p : points) {
            if (p.share > 1e-7) {
                slices.add(new Elongation.Slice(
                        p.share,
                        p.start,
                        p.wetter,
                        p.grittier,
                        Arrays.stream(p.bias).boxed().toList(),
                        Density.of(from, step, p.log)));
            }
        }
        return new Elongation(slices);
    }

    /** Mean and covariance of the scores. */
    void tell(double[] mean, double[][] about) {
        int n = of.size() + 1;
        double[][] squares = new double[n][n];
        for (Point p : points) {
            double middle = view.at(n - 1, p.scores);
            double peak = Arrays.stream(p.log).max().orElseThrow();
            double mass = 0;
            double first = 0;
            double second = 0;
            for (int i = 0; i < PACES; i++) {
                double w = Math.exp(p.log[i] - peak);
                double z = (from + i * step - middle) / view.left(n - 1);
                mass += w;
                first += w * z;
                second += w * z * z;
            }
            double[] z = Arrays.copyOf(p.scores, n);
            z[n - 1] = first / mass;
            for (int k = 0; k < n; k++) {
                mean[k] += p.share * z[k];
                for (int l = 0; l < n; l++) {
                    squares[k][l] += p.share * (k == n - 1 && l == n - 1 ? second / mass : z[k] * z[l]);
                }
            }
        }
        for (int k = 0; k < n; k++) {
            for (int l = 0; l < n; l++) {
                about[k][l] = squares[k][l] - mean[k] * mean[l];
            }
        }
    }
}
