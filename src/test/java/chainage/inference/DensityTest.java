package chainage.inference;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.apache.commons.statistics.distribution.ContinuousDistribution;
import org.apache.commons.statistics.distribution.GammaDistribution;
import org.apache.commons.statistics.distribution.LogNormalDistribution;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.ValueSource;

class DensityTest {
    /** Quantiles computed with another library in double precision; see the notes in the file. */
    @ParameterizedTest(name = "{0}({1}, {2}) at {3}")
    @CsvFileSource(resources = "quantiles.csv", numLinesToSkip = 2)
    void quantilesOfTheLibraryAndOfTheGrid(String name, double a, String b, double p, double quantile) {
        ContinuousDistribution d = switch (name) {
            case "normal" -> NormalDistribution.of(a, Double.parseDouble(b));
            case "gamma" -> GammaDistribution.of(a, Double.parseDouble(b));
            case "lognormal" -> LogNormalDistribution.of(a, Double.parseDouble(b));
            case "student_t" -> TDistribution.of(a);
            case "chi2" -> ChiSquaredDistribution.of(a);
            default -> throw new IllegalArgumentException(name);
        };
        assertEquals(quantile, d.inverseCumulativeProbability(p), 1e-9 * Math.max(1, quantile));
        if (name.equals("normal") || name.equals("lognormal")) {
            // The bells that the models are made of, on a grid of our own.
            double sd = Double.parseDouble(b);
            Density grid = Density.of(x -> Normal.logDensity((x - a) / sd), a - 20 * sd, a + 20 * sd);
            double q = grid.quantile(p);
            assertEquals(quantile, name.equals("normal") ? q : Math.exp(q), 1e-6 * Math.max(1, quantile));
            assertEquals(p, grid.probability(q), 1e-9);
            assertEquals(Math.log(sd), grid.logIntegral(), 1e-9);
        }
    }

    @Test
    void theGridFindsANarrowPeakInAWideRange() {
        Density d = Density.of(x -> Normal.logDensity((x - 1.2345) / 1e-4), -50, 50);
        assertEquals(1.2345, d.quantile(0.5), 1e-9);
        assertEquals(1e-4 * Normal.Z90, d.quantile(0.9) - 1.2345, 1e-10);
        assertEquals(1e-8, d.mean(x -> (x - 1.2345) * (x - 1.2345)), 1e-12);
    }

    @Test
    void aDensityThatStopsShortAtItsEnds() {
        Density d = Density.of(x -> 2 * x, 0, 1);
        double all = (Math.exp(2) - 1) / 2;
        assertEquals(Math.log(all), d.logIntegral(), 1e-9);
        assertEquals(Math.log(1 + 2 * all * 0.3) / 2, d.quantile(0.3), 1e-8);
        assertEquals((Math.exp(2) + 1) / 4 / all, d.mean(x -> x), 1e-8);
    }

    @ParameterizedTest
    @ValueSource(doubles = {-200, -38, -30.001, -29.999, -8, 0, 3, 40})
    void theLogOfASmallProbabilityStaysFiniteAndSmooth(double z) {
        double log = Normal.logProbability(z);
        assertTrue(Double.isFinite(log));
        // The slope of log P is the density over P.
        double h = 1e-5;
        double slope = (Normal.logProbability(z + h) - Normal.logProbability(z - h)) / (2 * h);
        if (Math.abs(Math.abs(z) - 30) > 0.01) {
            assertEquals(Math.exp(Normal.logDensity(z) - log), slope, 1e-5 * Math.max(1, Math.abs(z)));
        }
    }

    @Test
    void ofTwoAlikeEachIsTheSmallerHalfTheTime() {
        Density a = Density.of(Normal::logDensity, -10, 10);
        Density b = Density.of(x -> Normal.logDensity(x - 1), -10, 10);
        assertEquals(0.5, a.isBelow(a, x -> x), 1e-9);
        assertEquals(Normal.probability(Math.sqrt(0.5)), a.isBelow(b, x -> x), 1e-7);
        assertEquals(1, a.isBelow(b, x -> x) + b.isBelow(a, x -> x), 1e-9);
    }
}
