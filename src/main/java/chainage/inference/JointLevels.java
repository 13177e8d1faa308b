package chainage.inference;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Values of kinds of things as groups have seen them, where what a group saw of one hangs together with what it saw of
 * another: it may know how far two lie apart, and of neither where. All in units in which a value seen by nobody is spread
 * by 1.
 *
 * <p>Each value lies in a field. In it group r's value of kind p is M + δ_p + e_rp, with M ~ Normal(0, 1 − own² − τ²), δ_p ~
 * Normal(0, own²) and e ~ Normal(0, τ² / u_r), of which the group saw something ({@link JointWitness}). τ is the field's own
 * or shared with others, as one expects it, counted as so many groups more, and moved by what is seen. u_r ~ Gamma(2, 2): so
 * e is Student's t of 4 degrees, and a group that fits nobody weighs little. As {@link ThreeLevel}, of values that are seen
 * apart, M and δ are solved for exactly, all together; u and τ by turns. Nothing is drawn.
 */
@SuppressWarnings("ArrayRecordComponent") // vectors and matrices, made once and never compared
public final class JointLevels {
    private static final int TURNS = 60;
    private static final double DEGREES = 4;
    private static final double LEAST_SHARED = 0.05;

    /**
     * A field of kinds that are alike.
     *
     * @param kinds how many are told apart
     * @param spread number of the τ that it goes by
     */
    public record Field(int kinds, int spread) {}

    /**
     * Where a value lies.
     *
     * @param kind number from 0; -1 for a kind that no other group sees and nobody asks for
     */
    public record Place(int field, int kind) {
        /** In a field of which nobody has seen anything. */
        public static final Place UNSEEN = new Place(-1, -1);

        private static final int MIDDLE = -2;

        /** The middle of a field itself. */
        public static Place middle(int field) {
            return new Place(field, MIDDLE);
        }
    }

    /** What a group saw of the values at some places. */
    public record Group(List<Place> places, JointWitness seen) {
        public Group {
            places = List.copyOf(places);
        }
    }

    /**
     * What all groups together say, from which any group that has seen nothing itself starts.
     *
     * @param variances τ² by its number
     * @param means M of each field and then its δ, field by field
     * @param covariance of these
     */
    public record Told(double[] variances, double[] means, double[][] covariance) {}

    private final List<Field> fields;
    private final double own;
    private final List<Group> groups;
    private final int[] first;
    private final double[] weights;
    private final double[] variances;
    private double[] means;
    private double[][] covariance;

    /**
     * Weighs all.
     *
     * @param own spread of kinds about the middle of their field, below 1
     * @param expected each τ before anything is seen
     * @param known as how many groups that counts
     */
    public JointLevels(List<Field> fields, double own, List<Group> groups, double[] expected, double known) {
        this.fields = List.copyOf(fields);
        this.own = own;
        this.groups = List.copyOf(groups);
        this.first = first(fields);
        weights = new double[groups.size()];
        Arrays.fill(weights, 1);
        variances = squares(expected);
        int n = first[fields.size()];
        means = new double[n];
        covariance = new double[n][n];
        for (int turn = 0; turn < TURNS; turn++) {
            solve();
            turn(squares(expected), known);
        }
        solve();
    }

    private static double[] squares(double[] spreads) {
        return Arrays.stream(spreads).map(s -> s * s).toArray();
    }

    /** The place of each field's M, and one past the last. */
    private static int[] first(List<Field> fields) {
        int[] first = new int[fields.size() + 1];
        for (int i = 0; i < fields.size(); i++) {
            first[i + 1] = first[i] + 1 + fields.get(i).kinds();
        }
        return first;
    }

    /** The shared unknowns that a value is the sum of. */
    private static int[] of(Place p, int[] first) {
        int middle = first[p.field()];
        return p.kind() < 0 ? new int[] {middle} : new int[] {middle, middle + 1 + p.kind()};
    }

    /** Variance by which a group's value at a place differs from what is shared. */
    private double differs(int group, Place p) {
        return variances[fields.get(p.field()).spread()] / weights[group] + (p.kind() < 0 ? own * own : 0);
    }

    /** Covariance of by how much a group's values differ, once what it saw is known. */
    private double[][] left(int group) {
        Group g = groups.get(group);
        int n = g.places().size();
        double[][] precision = new double[n][];
        for (int i = 0; i < n; i++) {
            precision[i] = g.seen().precision()[i].clone();
            precision[i][i] += 1 / differs(group, g.places().get(i));
        }
        return Matrices.inverse(precision);
    }

    /** The shared unknowns by the weights and spreads as they are. */
    private void solve() {
        int n = means.length;
        double[][] precision = new double[n][n];
        double[] pull = new double[n];
        for (int f = 0; f < fields.size(); f++) {
            precision[first[f]][first[f]] = 1
                    / Math.max(
                            LEAST_SHARED,
                            1 - own * own - variances[fields.get(f).spread()]);
            for (int k = first[f] + 1; k < first[f + 1]; k++) {
                precision[k][k] = 1 / (own * own);
            }
        }
        for (int g = 0; g < groups.size(); g++) {
            add(g, precision, pull);
        }
        covariance = Matrices.inverse(precision);
        means = Matrices.times(covariance, pull);
    }

    /** What a group says of the shared unknowns, by how much it differs itself summed out. */
    private void add(int group, double[][] precision, double[] pull) {
        Group g = groups.get(group);
        double[][] seen = g.seen().precision();
        double[][] left = left(group);
        double[] drawn = Matrices.times(seen, Matrices.times(left, g.seen().pull()));
        int n = seen.length;
        double[][] taken = new double[n][];
        for (int i = 0; i < n; i++) {
            taken[i] = Matrices.times(left, seen[i]);
        }
        for (int i = 0; i < n; i++) {
            int[] here = of(g.places().get(i), first);
            for (int a : here) {
                pull[a] += g.seen().pull()[i] - drawn[i];
            }
            for (int j = 0; j < n; j++) {
                double says = seen[i][j] - Matrices.sum(seen[i], taken[j]);
                for (int b : of(g.places().get(j), first)) {
                    for (int a : here) {
                        precision[a][b] += says;
                    }
                }
            }
        }
    }

    /** One turn of weights and spreads. */
    private void turn(double[] expected, double known) {
        double[] sums = new double[variances.length];
        double[] counts = new double[variances.length];
        double[] next = weights.clone();
        for (int r = 0; r < groups.size(); r++) {
            Group g = groups.get(r);
            int n = g.places().size();
            double[] shared = new double[n];
            for (int i = 0; i < n; i++) {
                for (int a : of(g.places().get(i), first)) {
                    shared[i] += means[a];
                }
            }
            double[] rest = Matrices.times(g.seen().precision(), shared);
            for (int i = 0; i < n; i++) {
                rest[i] = g.seen().pull()[i] - rest[i];
            }
            double[][] left = left(r);
            double[] differ = Matrices.times(left, rest);
            double far = 0;
            for (int i = 0; i < n; i++) {
                int s = fields.get(g.places().get(i).field()).spread();
                double group = variances[s] / weights[r];
                // Of a kind of the group's own, the part that is the group's.
                double part = group / differs(r, g.places().get(i));
                double square = part * part * (differ[i] * differ[i] + left[i][i]) + group * (1 - part);
                far += square / variances[s];
                sums[s] += square * weights[r];
                counts[s]++;
            }
            next[r] = (DEGREES + n) / (DEGREES + far);
        }
        for (int s = 0; s < variances.length; s++) {
            variances[s] = (known * expected[s] + sums[s]) / (known + counts[s]);
        }
        System.arraycopy(next, 0, weights, 0, next.length);
    }

    /** How much a group weighs: about 1 for one like the others, near 0 for one that fits nobody. */
    public double weight(int group) {
        return weights[group];
    }

    /** What all together say. */
    public Told told() {
        return new Told(variances.clone(), means.clone(), covariance);
    }

    /**
     * Values as a group that has seen nothing itself may expect them: means and covariance of jointly normal ones.
     *
     * @param own as in the weighing
     */
    public static Expected expected(Told told, List<Field> fields, double own, List<Place> places) {
        int[] first = first(fields);
        int n = places.size();
        double[] means = new double[n];
        double[][] covariance = new double[n][n];
        List<int[]> sums = new ArrayList<>();
        for (Place p : places) {
            sums.add(p.field() < 0 ? new int[0] : of(p, first));
        }
        for (int i = 0; i < n; i++) {
            for (int a : sums.get(i)) {
                means[i] += told.means()[a];
                for (int j = 0; j < n; j++) {
                    for (int b : sums.get(j)) {
                        covariance[i][j] += told.covariance()[a][b];
                    }
                }
            }
            Place p = places.get(i);
            if (p.field() < 0) {
                covariance[i][i] = 1;
            } else if (p.kind() != Place.MIDDLE) {
                covariance[i][i] += told.variances()[fields.get(p.field()).spread()] * ThreeLevel.WIDER
                        + (p.kind() < 0 ? own * own : 0);
            }
        }
        return new Expected(means, covariance);
    }

    /** Jointly normal values. */
    public record Expected(double[] means, double[][] covariance) {}
}
