package chainage.wear;

import static org.junit.jupiter.api.Assertions.assertEquals;

import chainage.inference.Density;
import chainage.inference.Normal;
import chainage.ledger.Event;
import chainage.ledger.Reading;
import java.time.Instant;
import java.util.List;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Elongation of chains whose start and pace are given, so that every answer is known beforehand. */
class ElongationTest {
    private static final double SPREAD = 0.3;
    private static final NormalDistribution PACE = NormalDistribution.of(0, SPREAD);
    private static final Density PACES = Density.of(u -> Normal.logDensity(u / SPREAD), -12 * SPREAD, 12 * SPREAD);

    private static final Elongation.Slice FRESH = new Elongation.Slice(1, 0, 0, PACES);

    private static Elongation of(Elongation.Slice... slices) {
        return new Elongation(List.of(slices));
    }

    /** A slice stands for starts over its whole width: here from 0.45 to 0.55 %, in five steps. */
    @ParameterizedTest
    @CsvSource({"0.45,0", "0.47,0.2", "0.49,0.4", "0.51,0.6", "0.53,0.8", "0.55,1"})
    void aSliceStandsForStartsToBothSides(double percent, double chance) {
        assertEquals(chance, of(new Elongation.Slice(1, 0.5, 0.1, PACES)).atMost(percent, 0), 1e-12);
    }

    @Test
    void aNewChainThatNeverRanIsNotElongated() {
        assertEquals(1, of(FRESH).atMost(0, 0));
        assertEquals(0, of(FRESH).atMost(-0.01, 0));
        assertEquals(0, of(FRESH).percent(0).high());
    }

    /** Start 0.5 % for sure, then the pace alone: 0.5 + 0.2 e^u, and (1 − 0.5) e^−u to a limit of 1 %. */
    @Test
    void aWornChainStartsWhereItStarts() {
        Elongation worn = of(new Elongation.Slice(1, 0.5, 1e-9, PACES));
        for (double p : new double[] {0.1, 0.5, 0.9}) {
            double u = PACE.inverseCumulativeProbability(p);
            assertEquals(0.5 + 0.2 * Math.exp(u), at(worn.percent(0.2), p), 1e-4);
            assertEquals(0.5 * Math.exp(u), at(worn.expectedAt(1), p), 1e-4);
        }
        // Among starts over a width the outer ones are reached too.
        Elongation wide = of(new Elongation.Slice(1, 0.5, 0.1, PACES));
        assertEquals(0.54, wide.percent(0).high(), 1e-6);
        assertEquals(0.46, wide.percent(0).low(), 1e-6);
    }

    /** As likely new as worn to 0.5 %, whichever is named first. */
    @Test
    void theOrderOfStartsDoesNotMatter() {
        Elongation.Slice fresh = new Elongation.Slice(0.5, 0, 0, PACES);
        Elongation.Slice worn = new Elongation.Slice(0.5, 0.5, 1e-9, PACES);
        for (Elongation e : List.of(of(fresh, worn), of(worn, fresh))) {
            assertEquals(0.5, e.isNew());
            // A tenth of all is a fifth of the new ones, nine tenths are four fifths of the worn ones.
            double fifth = PACE.inverseCumulativeProbability(0.2);
            assertEquals(0.1 * Math.exp(fifth), e.percent(0.1).low(), 1e-4);
            assertEquals(0.5 + 0.1 * Math.exp(-fifth), e.percent(0.1).high(), 1e-4);
            assertEquals(0.5 * Math.exp(fifth), e.expectedAt(1).low(), 0.05);
            assertEquals(Math.exp(-fifth), e.expectedAt(1).high(), 0.05);
        }
    }

    private static double at(chainage.quantity.Estimate e, double p) {
        return p < 0.5 ? e.low() : p > 0.5 ? e.high() : e.likely();
    }

    /** The parabola of all lengths, and the gauges beside it, are the product of each reading's own density. */
    @ParameterizedTest
    @CsvSource({"0,0", "0,0.4", "0.1,-0.5", "0.3,0.2", "2,-1"})
    void readingsWeighedTogetherAreTheirProduct(double start, double logPace) {
        Reading.Elongation one = new Reading.Elongation(0.2, Reading.Tool.CALLIPER, 8);
        Reading.Elongation two = new Reading.Elongation(0.35, Reading.Tool.RULER, 100);
        Reading.Gauge drops = new Reading.Gauge(0.25, true);
        Reading.Gauge passes = new Reading.Gauge(0.75, false);
        double log = 0;
        for (Reading.Elongation e : List.of(one, two)) {
            log += NormalDistribution.of(start + 0.2 * Math.exp(logPace), e.errorPercent())
                    .logDensity(e.percent());
            assertEquals(
                    NormalDistribution.of(0, e.errorPercent()).logDensity(0), Likelihood.logMost(e), 1e-9, "at best");
        }
        for (Reading.Gauge g : List.of(drops, passes)) {
            NormalDistribution edge = NormalDistribution.of(g.edgePercent(), g.errorPercent());
            double percent = start + 0.2 * Math.exp(logPace);
            log += Math.log(g.drops() ? edge.cumulativeProbability(percent) : edge.survivalProbability(percent));
            assertEquals(0, Likelihood.logMost(g));
        }
        List<Seen> seen = List.of(seen(one), seen(drops), seen(two), seen(passes));
        assertEquals(log, new Weighed(seen).log(start, logPace), 1e-6 * Math.max(1, Math.abs(log)));
    }

    private static Seen seen(Reading reading) {
        return new Seen(new Event.Measured("Amber", Instant.EPOCH, reading), 0.2);
    }
}
