package chainage.inference;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Values of kinds of things as groups have seen them, in units in which a value seen by nobody is spread by 1.
 *
 * <p>In a field (of several that are alike in how groups differ) group r sees kind p at M + δ_p + e_rp + error, with
 * M ~ Normal(0, 1 − own² − τ²), δ_p ~ Normal(0, own²), and e_r ~ Normal(0, τ² / u_r), of whose variance a share is common to
 * all kinds of the field. u_r ~ Gamma(2, 2) is the same in all fields: so e is Student's t of 4 degrees, and a group that
 * fits nobody weighs little everywhere. τ is as one expects, counted as so many groups more, moved by what is seen.
 *
 * <p>M and δ are solved for exactly, u and τ by turns (expectation and maximisation) as often as {@link #TURNS} says. Nothing
 * is drawn; groups in another order give the same up to rounding.
 */
public final class ThreeLevel {
    private static final int TURNS = 60;
    private static final double DEGREES = 4;

    /** Least variance of what all share; whoever sees groups differ ever so much still does not know their middle. */
    private static final double LEAST_SHARED = 0.05;

    /** As much wider than the normal one is Student's distribution of 4 degrees in its middle 80 %, squared. */
    static final double WIDER = Math.pow(1.5332062740589438 / Normal.Z90, 2);

    /**
     * What a group saw of a kind.
     *
     * @param kind number from 0; -1 for a kind that no other group sees and nobody asks for
     * @param precision one over the variance of the error, above 0
     */
    public record Seen(int group, int kind, double value, double precision) {}

    /**
     * A field of kinds that are alike.
     *
     * @param kinds how many are told apart; 0 where there is one value alone
     * @param own spread of kinds about their middle, below 1; 0 where there is one value alone
     * @param alike share of a group's variance that is common to all kinds, 0 to 1
     * @param spread number of the τ that it goes by
     */
    public record Field(int kinds, double own, double alike, int spread, List<Seen> seen) {
        public Field {
            seen = List.copyOf(seen);
        }
    }

    /**
     * What to expect before anything is seen.
     *
     * @param spread τ
     * @param groups as how many groups that counts
     */
    public record Expected(double spread, double groups) {}

    /** What a group that has seen nothing itself may expect of a kind, and of the middle of its field. */
    public record Told(double mean, double variance, double withMiddle, double unseen) {}

    /** The observations of one group in one field. */
    @SuppressWarnings("ArrayRecordComponent") // columns of sums; nobody holds one against another
    private record Cell(int group, int[] kinds, double[] values, double[] noise) {}

    private final List<Field> fields;
    private final List<List<Cell>> cells = new ArrayList<>();
    private final double[] weights;
    private final double[] variances;
    private final List<double[]> means = new ArrayList<>();
    private final List<double[][]> covariances = new ArrayList<>();

    /**
     * Weighs all.
     *
     * @param groups how many, each with a number from 0
     * @param spreads how many τ there are
     */
    public ThreeLevel(int groups, int spreads, List<Field> fields, Expected expected) {
        this.fields = List.copyOf(fields);
        weights = new double[groups];
        Arrays.fill(weights, 1);
        variances = new double[spreads];
        Arrays.fill(variances, expected.spread() * expected.spread());
        for (Field f : fields) {
            cells.add(cells(f, groups));
            means.add(new double[0]);
            covariances.add(new double[0][0]);
        }
        for (int turn = 0; turn < TURNS; turn++) {
            solve();
            turn(expected);
        }
        solve();
    }

    private static List<Cell> cells(Field field, int groups) {
        List<List<Seen>> by = new ArrayList<>();
        for (int g = 0; g < groups; g++) {
            by.add(new ArrayList<>());
        }
        field.seen().forEach(s -> by.get(s.group()).add(s));
        List<Cell> cells = new ArrayList<>();
        for (int g = 0; g < groups; g++) {
            List<Seen> of = by.get(g);
            if (!of.isEmpty()) {
                double alone = field.own() * field.own();
                cells.add(new Cell(
                        g,
                        of.stream().mapToInt(Seen::kind).toArray(),
                        of.stream().mapToDouble(Seen::value).toArray(),
                        of.stream()
                                .mapToDouble(s -> 1 / s.precision() + (s.kind() < 0 ? alone : 0))
                                .toArray()));
            }
        }
        return cells;
    }

    private double shared(Field f) {
        return Math.max(LEAST_SHARED, 1 - f.own() * f.own() - variances[f.spread()]);
    }

    /** Middle and kinds of each field, by the weights and spreads as they are. */
    private void solve() {
        for (int i = 0; i < fields.size(); i++) {
            Field f = fields.get(i);
            int n = f.kinds() + 1;
            double[][] precision = new double[n][n];
            double[] pull = new double[n];
            precision[0][0] = 1 / shared(f);
            for (int k = 1; k < n; k++) {
                precision[k][k] = 1 / (f.own() * f.own());
            }
            for (Cell c : cells.get(i)) {
                add(f, c, precision, pull);
            }
            double[][] covariance = Matrices.inverse(precision);
            double[] mean = new double[n];
            for (int a = 0; a < n; a++) {
                for (int b = 0; b < n; b++) {
                    mean[a] += covariance[a][b] * pull[b];
                }
            }
            means.set(i, mean);
            covariances.set(i, covariance);
        }
    }

    /** The inverse of a cell's covariance is a diagonal less a product of a vector with itself. */
    private final class Inverse {
        final double common;
        final double single;
        final double[] diagonal;
        final double less;

        Inverse(Field f, Cell c) {
            double variance = variances[f.spread()] / weights[c.group()];
            common = f.alike() * variance;
            single = (1 - f.alike()) * variance;
            diagonal = new double[c.values().length];
            double sum = 0;
            for (int i = 0; i < diagonal.length; i++) {
                diagonal[i] = 1 / (c.noise()[i] + single);
                sum += diagonal[i];
            }
            less = common / (1 + common * sum);
        }

        double[] times(double[] v) {
            double sum = 0;
            for (int i = 0; i < v.length; i++) {
                sum += diagonal[i] * v[i];
            }
            double[] of = new double[v.length];
            for (int i = 0; i < v.length; i++) {
                of[i] = diagonal[i] * (v[i] - less * sum);
            }
            return of;
        }
    }

    private void add(Field f, Cell c, double[][] precision, double[] pull) {
        Inverse inverse = new Inverse(f, c);
        double[] pulled = inverse.times(c.values());
        int n = pulled.length;
        for (int i = 0; i < n; i++) {
            int p = c.kinds()[i] + 1;
            pull[0] += pulled[i];
            if (p > 0) {
                pull[p] += pulled[i];
            }
            for (int j = 0; j < n; j++) {
                int q = c.kinds()[j] + 1;
                double by =
                        (i == j ? inverse.diagonal[i] : 0) - inverse.less * inverse.diagonal[i] * inverse.diagonal[j];
                precision[0][0] += by;
                if (p > 0) {
                    precision[p][0] += by;
                }
                if (q > 0) {
                    precision[0][q] += by;
                }
                if (p > 0 && q > 0) {
                    precision[p][q] += by;
                }
            }
        }
    }

    /** One turn of weights and spreads. */
    private void turn(Expected expected) {
        double[] far = new double[weights.length];
        double[] count = new double[weights.length];
        double[] sums = new double[variances.length];
        double[] counts = new double[variances.length];
        for (int i = 0; i < fields.size(); i++) {
            Field f = fields.get(i);
            double[] mean = means.get(i);
            for (Cell c : cells.get(i)) {
                Inverse inverse = new Inverse(f, c);
                int n = c.values().length;
                double[] rest = new double[n];
                for (int k = 0; k < n; k++) {
                    int p = c.kinds()[k] + 1;
                    rest[k] = c.values()[k] - mean[0] - (p > 0 ? mean[p] : 0);
                }
                double[] w = inverse.times(rest);
                double sum = 0;
                double squares = 0;
                double trace = 0;
                double all = 0;
                for (int k = 0; k < n; k++) {
                    sum += w[k];
                    squares += w[k] * w[k];
                    trace += inverse.diagonal[k] - inverse.less * inverse.diagonal[k] * inverse.diagonal[k];
                    all += inverse.diagonal[k];
                }
                all -= inverse.less * all * all;
                double q = inverse.common * sum * sum
                        + inverse.single * squares
                        + n
                        - inverse.common * all
                        - inverse.single * trace;
                far[c.group()] += q / weights[c.group()];
                count[c.group()] += n;
                sums[f.spread()] += q;
                counts[f.spread()] += n;
            }
        }
        for (int s = 0; s < variances.length; s++) {
            variances[s] = (expected.groups() * expected.spread() * expected.spread() + sums[s] * variances[s])
                    / (expected.groups() + counts[s]);
        }
        for (int g = 0; g < weights.length; g++) {
            weights[g] = (DEGREES + count[g]) / (DEGREES + far[g]);
        }
    }

    /** How much a group weighs: about 1 for one like the others, near 0 for one that fits nobody. */
    public double weight(int group) {
        return weights[group];
    }

    /** τ: how groups differ in some fields. */
    public double spread(int spread) {
        return Math.sqrt(variances[spread]);
    }

    /** Variance by which a group differs, as wide as its Student's distribution is. */
    public double groups(int spread) {
        return variances[spread] * WIDER;
    }

    /** Of the middle of a field, for a kind that nobody has seen and for one value alone. */
    public Told middle(int field) {
        Field f = fields.get(field);
        double group = groups(f.spread());
        double middle = covariances.get(field)[0][0];
        double alike = middle + f.alike() * group;
        return new Told(means.get(field)[0], middle + f.own() * f.own() + group, alike, middle / shared(f));
    }

    /** Of a kind. */
    public Told kind(int field, int kind) {
        Field f = fields.get(field);
        double group = groups(f.spread());
        double[][] c = covariances.get(field);
        int k = kind + 1;
        double level = c[0][0] + 2 * c[0][k] + c[k][k];
        double with = c[0][0] + c[0][k] + f.alike() * group;
        double before = shared(f) + f.own() * f.own();
        return new Told(means.get(field)[0] + means.get(field)[k], level + group, with, level / before);
    }
}
