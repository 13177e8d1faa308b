package chainage.wear;

import static org.junit.jupiter.api.Assertions.assertEquals;

import chainage.inference.Density;
import chainage.inference.Normal;
import chainage.inference.TwoLevel;
import chainage.ledger.Reading;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.DoubleUnaryOperator;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * One chain against figures that were computed apart by adaptive quadrature (see the notes in wear-bayes.csv).
 *
 * <p>These have normal errors, so that here the model's Student's errors are replaced by normal ones: what is held is the
 * integration. There a wear rate w, per cent per 1000 km, has a lognormal prior of median 0.12 and log spread 0.6, and readings at
 * d thousand km. Here the table expects X = 0.12 d, so that w = 0.12 s. The readings' error there is 0.03, which is a
 * ruler's over 80 pitches.
 */
class WearBayesTest {
    private static final double MEDIAN = 0.12;

    private static ReadingSeen seen(double thousandKm, Reading reading) {
        return Wears.seen(MEDIAN * thousandKm, reading);
    }

    private static List<ReadingSeen> lengths() {
        List<ReadingSeen> seen = new ArrayList<>();
        for (double[] r : new double[][] {{1, 0.10}, {2, 0.22}, {3, 0.29}}) {
            seen.add(seen(r[0], new Reading.Elongation(r[1], Reading.Tool.RULER, 80)));
        }
        return seen;
    }

    private static double log(List<ReadingSeen> seen, double logPace) {
        Likelihood.Sum sum = new Likelihood.Sum(false);
        sum.begin(0);
        double peaks = 0;
        for (ReadingSeen s : seen) {
            sum.add(Likelihood.One.of(s.reading(), 0), Math.exp(logPace) * s.expectedPercent());
            peaks += s.reading() instanceof Reading.Gauge
                    ? 0
                    : Normal.logDensity(0) - Math.log(s.reading().errorPercent());
        }
        return sum.log() + peaks;
    }

    /** As the figures have it: P(0.5 drops and 0.75 passes) = P(0.5 drops) - P(0.75 drops), one edge error for both. */
    private static double logBetween(double percent) {
        return Math.log(Normal.probability((percent - 0.5) / 0.05) - Normal.probability((percent - 0.75) / 0.05));
    }

    /** The chain's log pace by some readings and, when not 0, a gauge that answers in between at so many thousand km. */
    private static Density member(List<ReadingSeen> seen, double betweenAt) {
        DoubleUnaryOperator likelihood =
                u -> log(seen, u) + (betweenAt == 0 ? 0 : logBetween(MEDIAN * betweenAt * Math.exp(u)));
        return new TwoLevel(0.6, 0, List.of(likelihood)).member(0);
    }

    private static Density of(String name) {
        return switch (name) {
            case "conjugate-normal" ->
                Density.of(
                        w -> Normal.logDensity((w - 0.12) / 0.06)
                                - Math.log(0.06)
                                + log(lengths(), Math.log(w / MEDIAN)),
                        1e-6,
                        1);
            case "grid-readings-only" -> member(lengths(), 0);
            case "grid-gauge-only" -> member(List.of(seen(3, new Reading.Gauge(0.5, false))), 5);
            case "grid-readings-and-gauge" -> member(lengths(), 5.5);
            case "hard-interval" ->
                Density.of(
                        u -> Normal.logDensity(u / 0.6) - Math.log(0.6),
                        Math.log(0.5 / 6 / MEDIAN),
                        Math.log(0.5 / 4 / MEDIAN));
            default -> throw new IllegalArgumentException(name);
        };
    }

    @ParameterizedTest(name = "{0}")
    @CsvFileSource(resources = "wear-bayes.csv", numLinesToSkip = 2)
    void theModelOfOneChain(
            String name,
            double mean,
            @Nullable Double sd,
            @Nullable Double q05,
            double q50,
            @Nullable Double q95,
            @Nullable Double evidence) {
        Density d = of(name);
        DoubleUnaryOperator rate = u -> name.equals("conjugate-normal") ? u : MEDIAN * Math.exp(u);
        assertEquals(mean, d.mean(rate), 1e-6);
        assertEquals(q50, rate.applyAsDouble(d.quantile(0.5)), 1e-6);
        if (sd != null) {
            assertEquals(sd, Math.sqrt(d.mean(u -> Math.pow(rate.applyAsDouble(u) - mean, 2))), 1e-6);
            assertEquals(Objects.requireNonNull(q05), rate.applyAsDouble(d.quantile(0.05)), 1e-6);
            assertEquals(Objects.requireNonNull(q95), rate.applyAsDouble(d.quantile(0.95)), 1e-6);
        }
        if (evidence != null) {
            assertEquals(evidence, Math.exp(d.logIntegral()), 1e-6 * Math.max(1, evidence));
        }
    }

    /** The same through the front, readings in and elongation out, whatever part of the spread is shared. */
    @ParameterizedTest(name = "own {0}, shared {1}")
    @CsvSource({"0.6, 0", "0.36, 0.48", "0.48, 0.36"})
    void theElongationOfOneChain(double own, double shared) {
        WearModel model = Wears.model(Wears.plain(own, shared), Map.of("Amber", lengths()));
        double[] q = {0.05, 0.5, 0.95};
        double[] w = {0.087324602, 0.100401189, 0.113504925};
        for (int i = 0; i < q.length; i++) {
            // 1e-6 in w is 5e-5 in probability where the density is steepest.
            assertEquals(q[i], model.of("Amber").atMost(w[i], Expected.dry(MEDIAN)), 5e-5);
        }
        assertEquals(
                0.100401189, model.of("Amber").percent(Expected.dry(MEDIAN)).likely(), 1e-6);
    }

    /** From the row with a gauge: 4373, 4892 and 5506 km to 0.5 %; 5, 50 and 95 %. To the kilometre. */
    @ParameterizedTest
    @CsvSource({"4373, 0.95", "4892, 0.5", "5506, 0.05"})
    void theDistanceToTheLimit(double km, double quantile) {
        double rate = MEDIAN * Math.exp(member(lengths(), 5.5).quantile(quantile));
        assertEquals(km, 0.5 / rate * 1000, 0.5);
    }
}
