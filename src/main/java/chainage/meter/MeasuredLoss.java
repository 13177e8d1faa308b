package chainage.meter;

import chainage.exposure.Factors;
import chainage.inference.RobustLine;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.BiFunction;
import org.jspecify.annotations.Nullable;

/**
 * What paired rides together tell of the loss in the chain.
 *
 * <p>Of the pair (a, b) on ride i: ln(P_b ÷ P_a) = o_ab + d_i + ln(1 − λ_i). The offset o of the two meters and the drift
 * d of a ride are unknown, and so is how far the friction model is off: λ_i is its loss in the ride's own gears and
 * cadence, its fresh part times a factor of the product's own about one common to all, its rise since times another. So
 * differences between states of one product, and between products, are measured; what is common to all hides in the
 * offset unless that is known from a calibration. Immutable.
 */
public final class MeasuredLoss {
    // Before any ride is seen; our guesses. Makers of meters state one to two per cent each.
    /** How far the level common to all may be off. */
    static final double COMMON = 0.5;
    /** How far a product's own may be off that. */
    static final double OWN = 0.35;
    /** How far the rise over a life may be off: one time in four it would be none at all. */
    static final double RISE = 1.5;
    /** What a stated calibration leaves open. */
    private static final double CALIBRATED = 0.003;
    /** How far the spread of drifts may be off, in the log. */
    private static final double DRIFT_SPREAD = 0.5;

    /** A ride so many spreads off the others does not fit them. */
    private static final double ODD = 4;

    /** Turns until the curve of ln(1 − λ) is followed. */
    private static final int ROUNDS = 3;

    private final List<Seen> seen;
    private final Map<Pair, Integer> pairs;
    private final Map<String, Integer> products;
    private final Map<Pair, Double> calibrated;
    private final RobustLine line;

    /** Two meters, before the chain and behind it, by type and serial. */
    public record Pair(String before, String behind) {}

    /**
     * A ride that two meters recorded.
     *
     * @param product on the chain
     * @param perMu share of the power lost at a coefficient of friction of 1, in the ride's own gears and cadence
     * @param freshMu coefficient of friction by the table when its treatment was fresh
     * @param mu the same as it was on the ride, by the table
     * @param logRatio ln(behind ÷ before)
     * @param error of that by the scatter of the minutes
     */
    public record Seen(
            Pair pair, String product, double perMu, double freshMu, double mu, double logRatio, double error) {}

    /**
     * A state to ask for.
     *
     * @param perMu share of the power lost at a coefficient of friction of 1
     * @param freshMu coefficient of friction by the table, freshly treated
     * @param mu the same in the state
     */
    public record State(String product, double perMu, double freshMu, double mu) {}

    /**
     * How far meters are off each other before any ride is seen.
     *
     * @param offset spread of a pair's offset, as a share
     * @param drift spread of a ride's drift, as a share
     */
    public record Meters(double offset, double drift) {
        /** By the table, with the rider's own values. */
        public static Meters of(Factors factors) {
            return new Meters(factors.value("meter.offset") / 100, factors.value("meter.drift") / 100);
        }
    }

    /** From where the level and the products start before any ride. */
    public interface Start {
        /** By the table alone, each by itself. */
        Start TABLE = apart(COMMON, OWN);

        /** Each product by itself, with so much open of the common level and of its own. */
        static Start apart(double common, double own) {
            return products -> {
                int n = 1 + 2 * products.size();
                double[] means = new double[n];
                double[][] covariance = new double[n][n];
                means[0] = 1;
                covariance[0][0] = common * common;
                for (int i = 1; i < n; i += 2) {
                    means[i + 1] = 1;
                    covariance[i][i] = own * own;
                    covariance[i + 1][i + 1] = RISE * RISE;
                }
                return new Known(means, covariance);
            };
        }

        /** Of some products, in their order. */
        Known of(List<String> products);
    }

    /**
     * What is known of the common level and of some products, jointly normal.
     *
     * @param means of the common level, then of each product how far its own lies off that, and its rise
     * @param covariance of these
     */
    @SuppressWarnings("ArrayRecordComponent") // a vector and a matrix, made once and never compared
    public record Known(double[] means, double[][] covariance) {}

    private MeasuredLoss(
            List<Seen> seen,
            Map<Pair, Integer> pairs,
            Map<String, Integer> products,
            Map<Pair, Double> calibrated,
            RobustLine line) {
        this.seen = seen;
        this.pairs = pairs;
        this.products = products;
        this.calibrated = calibrated;
        this.line = line;
    }

    /**
     * Learns from rides.
     *
     * @param others products that may be asked for too
     * @param start from where the products start
     * @param calibration ln(behind ÷ before) without a chain between them, for pairs of which it is known; else null
     */
    public static MeasuredLoss of(
            List<Seen> seen,
            Collection<String> others,
            Start start,
            Meters meters,
            BiFunction<String, String, @Nullable Double> calibration) {
        Map<Pair, Integer> pairs = new HashMap<>();
        Map<String, Integer> products = new HashMap<>();
        Map<Pair, Double> calibrated = new HashMap<>();
        // The first is the level common to all.
        List<Double> means = new ArrayList<>(List.of(1.0));
        List<Double> spreads = new ArrayList<>(List.of(COMMON));
        for (Seen s : seen) {
            if (!pairs.containsKey(s.pair())) {
                Double known = calibration.apply(s.pair().before(), s.pair().behind());
                pairs.put(s.pair(), means.size());
                means.add(known == null ? 0 : known);
                spreads.add(known == null ? meters.offset() : CALIBRATED);
                if (known != null) {
                    calibrated.put(s.pair(), known);
                }
            }
        }
        Set<String> named = new LinkedHashSet<>(seen.stream().map(Seen::product).toList());
        named.addAll(others);
        int apart = means.size();
        Known known = start.of(List.copyOf(named));
        for (String product : named) {
            products.put(product, apart + 2 * products.size());
        }
        int n = apart + 2 * products.size();
        double[] expected = Arrays.copyOf(array(means), n);
        double[][] covariance = new double[n][n];
        for (int i = 1; i < apart; i++) {
            covariance[i][i] = spreads.get(i) * spreads.get(i);
        }
        for (int i = 0; i < known.means().length; i++) {
            int at = i == 0 ? 0 : apart + i - 1;
            expected[at] = known.means()[i];
            for (int j = 0; j < known.means().length; j++) {
                covariance[at][j == 0 ? 0 : apart + j - 1] = known.covariance()[i][j];
            }
        }
        RobustLine.Prior prior = new RobustLine.Prior(expected, covariance, meters.drift(), DRIFT_SPREAD);
        MeasuredLoss loss =
                new MeasuredLoss(List.copyOf(seen), pairs, products, calibrated, RobustLine.of(prior, List.of()));
        for (int round = 0; round < ROUNDS; round++) {
            List<RobustLine.Row> rows = new ArrayList<>();
            for (Seen s : seen) {
                double lost = Math.max(0, Math.min(0.3, loss.line.mean(loss.lost(s))));
                double beyond = -Math.log1p(-lost) - lost;
                rows.add(new RobustLine.Row(loss.leaning(s), -s.logRatio() - beyond, s.error()));
            }
            loss = new MeasuredLoss(loss.seen, pairs, products, calibrated, RobustLine.of(prior, rows));
        }
        return loss;
    }

    private static double[] array(List<Double> values) {
        return values.stream().mapToDouble(Double::doubleValue).toArray();
    }

    private double[] none() {
        return new double[1 + pairs.size() + 2 * products.size()];
    }

    private double[] lost(Seen s) {
        return lost(new State(s.product(), s.perMu(), s.freshMu(), s.mu()));
    }

    /** The unknowns that make up a state's loss. */
    private double[] lost(State s) {
        double[] of = none();
        Integer own = products.get(s.product());
        of[0] = s.perMu() * s.freshMu();
        if (own != null) {
            of[own] = s.perMu() * s.freshMu();
            of[own + 1] = s.perMu() * (s.mu() - s.freshMu());
        }
        return of;
    }

    private double[] leaning(Seen s) {
        double[] of = lost(s);
        of[pairs.getOrDefault(s.pair(), 0)] -= 1;
        return of;
    }

    private double[] difference(State a, State b) {
        double[] of = lost(a);
        double[] other = lost(b);
        for (int i = 0; i < of.length; i++) {
            of[i] -= other[i];
        }
        return of;
    }

    /** The rides it was learnt from. */
    public List<Seen> seen() {
        return seen;
    }

    /** How many of them were ridden on a product. */
    public int rides(String product) {
        return (int) seen.stream().filter(s -> s.product().equals(product)).count();
    }

    /** True when a calibration was stated for a pair that was ridden with, so that the level is known too. */
    public boolean isCalibrated() {
        return !calibrated.isEmpty();
    }

    /** Spread of the drifts as it was learnt, as a share. */
    public double drift() {
        return line.scale();
    }

    /**
     * A share of the power, with what is known of it.
     *
     * @param low 10 % quantile
     * @param middle mean
     * @param high 90 % quantile
     * @param positive probability that it is above 0
     */
    public record Share(double low, double middle, double high, double positive) {}

    private Share share(double[] of) {
        return new Share(line.quantile(of, 0.1), line.mean(of), line.quantile(of, 0.9), 1 - line.atMost(of, 0));
    }

    /** What is known of the common level and of some of the products now. */
    Known known(List<String> asked) {
        List<double[]> unknowns = new ArrayList<>();
        double[] common = none();
        common[0] = 1;
        unknowns.add(common);
        for (String product : asked) {
            for (int i = 0; i < 2; i++) {
                double[] of = none();
                of[Objects.requireNonNull(products.get(product)) + i] = 1;
                unknowns.add(of);
            }
        }
        return new Known(
                unknowns.stream().mapToDouble(line::mean).toArray(),
                unknowns.stream()
                        .map(a -> unknowns.stream()
                                .mapToDouble(b -> line.covariance(a, b))
                                .toArray())
                        .toArray(double[][]::new));
    }

    /** Share of the power that a state loses; a measurement only where a pair was calibrated. */
    public Share loss(State s) {
        return share(lost(s));
    }

    /** Share of the power that one state loses more than another. */
    public Share more(State a, State b) {
        return share(difference(a, b));
    }

    /** How much surer rides have made the difference of two states: its spread now, to that of the table alone. */
    public double narrowed(State a, State b) {
        double[] of = difference(a, b);
        double before = 0;
        for (Map.Entry<String, Integer> p : products.entrySet()) {
            before += Math.pow(of[p.getValue()] * OWN, 2) + Math.pow(of[p.getValue() + 1] * RISE, 2);
        }
        before += Math.pow(of[0] * COMMON, 2);
        return before > 0 ? line.spread(of) / Math.sqrt(before) : 1;
    }

    /** Spread that the difference of two states would have once these rides more were seen. */
    public double spreadAfter(State a, State b, List<Seen> more) {
        return line.spreadAfter(
                difference(a, b),
                more.stream()
                        .map(s -> new RobustLine.Row(leaning(s), 0, s.error()))
                        .toList());
    }

    /** Share of the power that a ride lost once the pair's offset is taken off; the level is only as sure as that is. */
    public double lost(Seen s, boolean byMeters) {
        double[] offset = none();
        offset[pairs.getOrDefault(s.pair(), 0)] = 1;
        return byMeters ? 1 - Math.exp(s.logRatio() - line.mean(offset)) : line.mean(lost(s));
    }

    /** Share of the power before the chain that two meters would not show behind it: the loss, and their offset. */
    public Share missing(Pair pair, State s) {
        double[] of = lost(s);
        double lost = line.mean(of);
        of[Objects.requireNonNull(pairs.get(pair))] -= 1;
        Share raw = share(of);
        double beyond = -Math.log1p(-lost) - lost;
        return new Share(
                -Math.expm1(-raw.low() - beyond),
                -Math.expm1(-raw.middle() - beyond),
                -Math.expm1(-raw.high() - beyond),
                raw.positive());
    }

    /** How far a ride lies off what all together say, in spreads of one ride. */
    public double off(Seen s) {
        return (lost(s, true) - lost(s, false)) / Math.hypot(line.scale(), s.error());
    }

    /** True where a ride does not fit the others, and so weighs little. */
    public boolean isOdd(Seen s) {
        return Math.abs(off(s)) > ODD;
    }
}
