package chainage.wear;

import chainage.inference.Density;
import chainage.inference.MonotoneInverse;
import chainage.quantity.Estimate;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import java.util.function.ToDoubleFunction;

/**
 * What is known of a chain's elongation: start + s · X, where X is what is expected of its rides and s how many times
 * faster than that this chain wears.
 *
 * <p>It is a few slices: each a case of what else is unknown (where the chain started, how much wet and grit count, how
 * far its tools read too long), with its share of the probability and the density of log s that goes with it.
 */
public final class Elongation {
    /**
     * One case.
     *
     * @param weight share of the probability
     * @param start elongation before the first ride, per cent; 0 for a chain that was new then
     * @param wetter how many times what the table says wet roads add to wear
     * @param grittier the same of grit
     * @param bias how much too long each tool reads, per cent, in the order of the tools
     * @param logPace density of log s
     */
    record Slice(double weight, double start, double wetter, double grittier, List<Double> bias, Density logPace) {}

    /** A question about a slice: what is expected of the rides there, per cent. */
    private double expected(Slice s, Expected x) {
        return x.percent(s.wetter(), s.grittier());
    }

    private final List<Slice> slices;

    Elongation(List<Slice> slices) {
        this.slices = List.copyOf(slices);
    }

    /** Chance that the chain was new at its first ride. */
    public double isNew() {
        return slices.stream()
                .filter(s -> s.start() == 0)
                .mapToDouble(Slice::weight)
                .sum();
    }

    /** How many times faster than the table the chain wears: 10, 50 and 90 %. */
    public Estimate pace() {
        return estimate(
                x -> slices.stream()
                        .mapToDouble(s -> s.weight() * s.logPace().probability(x))
                        .sum(),
                extreme(s -> s.logPace().low(), false),
                extreme(s -> s.logPace().high(), true),
                true);
    }

    /** Variance of the log of that. */
    double logPaceVariance() {
        double mean = 0;
        double squares = 0;
        for (Slice s : slices) {
            mean += s.weight() * s.logPace().mean(u -> u);
            squares += s.weight() * s.logPace().mean(u -> u * u);
        }
        return Math.max(0, squares - mean * mean);
    }

    private double extreme(ToDoubleFunction<Slice> of, boolean most) {
        return most
                ? slices.stream().mapToDouble(of).max().orElseThrow()
                : slices.stream().mapToDouble(of).min().orElseThrow();
    }

    /**
     * Chance that the elongation is at most so much.
     *
     * @param percent elongation
     * @param expected of the rides; below 0 for rides that are yet to be taken off
     */
    public double atMost(double percent, Expected expected) {
        double sum = 0;
        for (Slice s : slices) {
            double worn = percent - s.start();
            double x = expected(s, expected);
            sum += worn < 0 ? 0 : x <= 0 ? s.weight() : s.weight() * s.logPace().probability(Math.log(worn / x));
        }
        return sum;
    }

    /** Mean over the elongation, per cent, and what a tool reads too long, per cent. */
    double mean(Expected expected, int tool, Reads f) {
        double sum = 0;
        for (Slice s : slices) {
            double x = expected(s, expected);
            double bias = s.bias().get(tool);
            sum += s.weight() * s.logPace().mean(u -> f.at(s.start() + x * Math.exp(u), bias));
        }
        return sum;
    }

    /** A function of a chain's elongation and of what the tool reads too long, per cent. */
    @FunctionalInterface
    interface Reads {
        double at(double percent, double bias);
    }

    /** Elongation in per cent: 10, 50 and 90 %. */
    public Estimate percent(Expected expected) {
        double least = extreme(
                s -> s.start() + expected(s, expected) * Math.exp(s.logPace().low()), false);
        double most = extreme(
                s -> s.start() + expected(s, expected) * Math.exp(s.logPace().high()), true);
        return least > 0
                ? estimate(x -> atMost(Math.exp(x), expected), Math.log(least), Math.log(most), true)
                : estimate(x -> atMost(x, expected), 0, Math.max(0, most), false);
    }

    /**
     * How much more can be ridden until the elongation reaches a limit, in the measure of {@code each}: 10, 50 and 90 %.
     * Below 0 where it is beyond it, at most by what was ridden.
     *
     * @param done expected of the rides so far
     * @param each expected of one more of the measure, above 0
     */
    public Estimate ridable(double limitPercent, Expected done, Expected each) {
        double back = -done.percent() / each.percent();
        double on = extreme(s -> limitPercent * Math.exp(-s.logPace().low()) / expected(s, each), true);
        return estimate(m -> 1 - atMost(limitPercent, done.plus(each, m)), back, on, false);
    }

    @Override
    public String toString() {
        return "pace " + pace() + ", new " + isNew();
    }

    private static Estimate estimate(DoubleUnaryOperator share, double low, double high, boolean logs) {
        double[] at = new double[3];
        for (int i = 0; i < 3; i++) {
            double x = MonotoneInverse.reaches(share, new double[] {0.1, 0.5, 0.9}[i], low, high);
            at[i] = logs ? Math.exp(x) : x;
        }
        return new Estimate(at[0], at[1], at[2]);
    }
}
