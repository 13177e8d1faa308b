package chainage.wear;

import chainage.inference.Density;
import chainage.inference.MonotoneInverse;
import chainage.quantity.Estimate;
import java.util.List;
import java.util.function.DoubleUnaryOperator;

/**
 * What is known of a chain's elongation: start + s · X, where X is what the table expects of its rides and s how many
 * times faster than that this chain wears.
 *
 * <p>A chain that was new at its first ride starts at 0. One that was not is a few slices, each a start and the density
 * of log s that goes with it.
 */
public final class Elongation {
    /** Points at which a slice's width is averaged over. */
    private static final int PARTS = 5;

    /**
     * One start.
     *
     * @param weight share of the probability
     * @param start elongation before the first ride, per cent
     * @param width of the starts that it stands for, per cent
     * @param logPace density of log s
     */
    record Slice(double weight, double start, double width, Density logPace) {}

    private final List<Slice> slices;

    Elongation(List<Slice> slices) {
        this.slices = List.copyOf(slices);
    }

    /** Chance that the chain was new at its first ride. */
    public double isNew() {
        return slices.stream()
                .filter(s -> s.width() == 0)
                .mapToDouble(Slice::weight)
                .sum();
    }

    /** How many times faster than the table the chain wears: 10, 50 and 90 %. */
    public Estimate pace() {
        if (slices.size() == 1) {
            Density d = slices.get(0).logPace();
            return estimate(p -> Math.exp(d.quantile(p)));
        }
        return estimate(p -> MonotoneInverse.reaches(
                x -> slices.stream()
                        .mapToDouble(s -> s.weight() * s.logPace().probability(Math.log(x)))
                        .sum(),
                p,
                Math.exp(least()),
                Math.exp(most())));
    }

    private double least() {
        return slices.stream().mapToDouble(s -> s.logPace().low()).min().orElseThrow();
    }

    private double most() {
        return slices.stream().mapToDouble(s -> s.logPace().high()).max().orElseThrow();
    }

    /**
     * Chance that the elongation is at most so much.
     *
     * @param percent elongation
     * @param expected what the table expects of the rides, per cent; 0 or more
     */
    public double atMost(double percent, double expected) {
        double sum = 0;
        for (Slice s : slices) {
            int parts = s.width() == 0 ? 1 : PARTS;
            double mean = 0;
            for (int i = 0; i < parts; i++) {
                double worn = percent - s.start() - s.width() * ((i + 0.5) / parts - 0.5);
                mean += worn < 0 ? 0 : expected <= 0 ? 1 : s.logPace().probability(Math.log(worn / expected));
            }
            sum += s.weight() * mean / parts;
        }
        return sum;
    }

    /** Mean of a function of the elongation, per cent. */
    double mean(double expected, DoubleUnaryOperator f) {
        double sum = 0;
        for (Slice s : slices) {
            sum += s.weight() * s.logPace().mean(u -> f.applyAsDouble(s.start() + expected * Math.exp(u)));
        }
        return sum;
    }

    /** Elongation in per cent: 10, 50 and 90 %. */
    public Estimate percent(double expected) {
        if (slices.size() == 1 && slices.get(0).width() == 0) {
            Density d = slices.get(0).logPace();
            return estimate(p -> expected * Math.exp(d.quantile(p)));
        }
        double from =
                slices.stream().mapToDouble(s -> s.start() - s.width()).min().orElseThrow();
        double to =
                slices.stream().mapToDouble(s -> s.start() + s.width()).max().orElseThrow();
        return estimate(p -> MonotoneInverse.reaches(
                x -> atMost(x, expected), p, Math.min(0, from), to + expected * Math.exp(most())));
    }

    /**
     * What the table would expect of the rides when the elongation reaches a limit: 10, 50 and 90 %. 0 where it was
     * beyond it before the first ride.
     */
    public Estimate expectedAt(double limitPercent) {
        if (slices.size() == 1 && slices.get(0).width() == 0) {
            Density d = slices.get(0).logPace();
            return estimate(p -> limitPercent * Math.exp(-d.quantile(1 - p)));
        }
        return estimate(p ->
                MonotoneInverse.reaches(x -> 1 - atMost(limitPercent, x), p, 0, limitPercent * Math.exp(-least())));
    }

    @Override
    public String toString() {
        return "pace " + pace() + ", new " + isNew();
    }

    private static Estimate estimate(DoubleUnaryOperator quantile) {
        return new Estimate(quantile.applyAsDouble(0.1), quantile.applyAsDouble(0.5), quantile.applyAsDouble(0.9));
    }
}
