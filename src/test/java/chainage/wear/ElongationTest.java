package chainage.wear;

import static org.junit.jupiter.api.Assertions.assertEquals;

import chainage.inference.Density;
import chainage.inference.Normal;
import chainage.ledger.Reading;
import java.util.List;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Elongation of chains whose start and pace are given, so that every answer is known beforehand. */
class ElongationTest {
    private static final double SPREAD = 0.3;
    private static final NormalDistribution PACE = NormalDistribution.of(0, SPREAD);
    private static final Density PACES = Density.of(u -> Normal.logDensity(u / SPREAD), -12 * SPREAD, 12 * SPREAD);

    private static final Elongation.Slice FRESH = slice(1, 0);

    private static Elongation.Slice slice(double weight, double start) {
        return new Elongation.Slice(weight, start, 1, 1, List.of(0.0, 0.0, 0.0), PACES);
    }

    private static Elongation of(Elongation.Slice... slices) {
        return new Elongation(List.of(slices));
    }

    @Test
    void aNewChainThatNeverRanIsNotElongated() {
        assertEquals(1, of(FRESH).atMost(0, Expected.NONE));
        assertEquals(0, of(FRESH).atMost(-0.01, Expected.NONE));
        assertEquals(0, of(FRESH).percent(Expected.dry(0)).high());
    }

    /** Start 0.5 % for sure, then the pace alone: 0.5 + 0.2 e^u, and (1 − 0.5) e^−u to a limit of 1 %. */
    @Test
    void aWornChainStartsWhereItStarts() {
        Elongation worn = of(slice(1, 0.5));
        for (double p : new double[] {0.1, 0.5, 0.9}) {
            double u = PACE.inverseCumulativeProbability(p);
            assertEquals(0.5 + 0.2 * Math.exp(u), at(worn.percent(Expected.dry(0.2)), p), 1e-4);
            assertEquals(0.5 * Math.exp(u), at(beyond(worn), p), 1e-4);
        }
    }

    /** As likely new as worn to 0.5 %, whichever is named first. */
    @Test
    void theOrderOfStartsDoesNotMatter() {
        Elongation.Slice fresh = slice(0.5, 0);
        Elongation.Slice worn = slice(0.5, 0.5);
        for (Elongation e : List.of(of(fresh, worn), of(worn, fresh))) {
            assertEquals(0.5, e.isNew());
            // A tenth of all is a fifth of the new ones, nine tenths are four fifths of the worn ones.
            double fifth = PACE.inverseCumulativeProbability(0.2);
            assertEquals(0.1 * Math.exp(fifth), e.percent(Expected.dry(0.1)).low(), 1e-4);
            assertEquals(
                    0.5 + 0.1 * Math.exp(-fifth), e.percent(Expected.dry(0.1)).high(), 1e-4);
            assertEquals(0.5 * Math.exp(fifth), beyond(e).low(), 0.05);
            assertEquals(Math.exp(-fifth), beyond(e).high(), 0.05);
        }
    }

    private static double at(chainage.quantity.Estimate e, double p) {
        return p < 0.5 ? e.low() : p > 0.5 ? e.high() : e.likely();
    }

    private static chainage.quantity.Estimate beyond(Elongation e) {
        return e.ridable(1, Expected.NONE, Expected.dry(1));
    }

    /** Wet and grit count what they add, times what they add more: 1.3 of a damp road is 1 and 0.3 times e^w. */
    @ParameterizedTest
    @CsvSource({"1,1,0.312", "2,1,0.384", "1,2,0.456", "2,2,0.552", "0,0,0.12"})
    void wetAndGritCountWhatTheyAdd(double wetter, double grittier, double percent) {
        Expected x = new Expected(0.12, 0.12 * 0.4, 0.12, 0.12 * 0.2);
        assertEquals(percent, x.percent(wetter, grittier), 1e-12);
    }

    /** What is weighed together is the product of each reading's own likelihood, up to the peaks of the lengths. */
    @ParameterizedTest
    @CsvSource({"0,0", "0,0.4", "0.1,-0.5", "0.3,0.2", "2,-1"})
    void readingsWeighedTogetherAreTheirProduct(double start, double logPace) {
        TDistribution student = TDistribution.of(4);
        Reading.Elongation one = new Reading.Elongation(0.2, Reading.Tool.CALLIPER, 8);
        Reading.Elongation two = new Reading.Elongation(0.35, Reading.Tool.RULER, 100);
        Reading.Gauge drops = new Reading.Gauge(0.25, true);
        Reading.Gauge passes = new Reading.Gauge(0.75, false);
        double percent = start + 0.2 * Math.exp(logPace);
        double log = 0;
        double normal = 0;
        for (Reading.Elongation e : List.of(one, two)) {
            double z = (e.percent() - percent) / e.errorPercent();
            log += student.logDensity(z) - student.logDensity(0);
            normal += -z * z / 2;
        }
        for (Reading.Gauge g : List.of(drops, passes)) {
            double z = (percent - g.edgePercent()) / g.errorPercent();
            log += Math.log(g.drops() ? student.cumulativeProbability(z) : student.survivalProbability(z));
            NormalDistribution unit = NormalDistribution.of(0, 1);
            normal += Math.log(g.drops() ? unit.cumulativeProbability(z) : unit.survivalProbability(z));
        }
        assertEquals(log, weighed(true, percent, one, drops, two, passes), 1e-6 * Math.max(1, Math.abs(log)));
        assertEquals(normal, weighed(false, percent, one, drops, two, passes), 1e-6 * Math.max(1, Math.abs(normal)));
    }

    private static double weighed(boolean heavy, double percent, Reading... readings) {
        Likelihood.Sum sum = new Likelihood.Sum(heavy);
        sum.begin(0);
        for (Reading r : readings) {
            sum.add(Likelihood.One.of(r, 0), percent);
        }
        return sum.log();
    }
}
