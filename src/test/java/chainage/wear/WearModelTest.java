package chainage.wear;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.inference.Normal;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.ledger.Reading;
import chainage.quantity.Estimate;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;

class WearModelTest {
    private static final WearModel.Prior PRIOR = new WearModel.Prior(0.35, 0.5, 0.05);

    private static Seen seen(double expected, Reading reading) {
        return new Seen(new Event.Measured("Amber", Instant.EPOCH, reading), expected);
    }

    private static Seen length(double expected, double percent) {
        return seen(expected, new Reading.Elongation(percent, Reading.Tool.CALLIPER, 8));
    }

    private static WearModel model(Seen... seen) {
        return new WearModel(PRIOR, Map.of("Amber", List.of(seen)));
    }

    private static double width(Estimate e) {
        return Math.log(e.high() / e.low());
    }

    @Test
    void noReadingsGiveThePrior() {
        Estimate e = model().of("Amber").percent(0.2);
        double times = Math.exp(Normal.Z90 * Math.hypot(0.35, 0.5));
        assertEquals(0.2, e.likely(), 1e-7);
        assertEquals(0.2 / times, e.low(), 1e-6);
        assertEquals(0.2 * times, e.high(), 1e-6);
        assertEquals(List.of(), model().doubts("Amber"));
    }

    @Test
    void aReadingAtThePredictionNarrowsAndHardlyMoves() {
        Estimate before = model().of("Amber").percent(0.3);
        Estimate after = model(length(0.3, 0.3)).of("Amber").percent(0.3);
        assertTrue(width(after) < width(before) / 2);
        assertEquals(before.likely(), after.likely(), 0.01);
    }

    @Test
    void theOrderOfReadingsDoesNotMatter() {
        List<Seen> seen = new ArrayList<>(List.of(
                length(0.1, 0.12), length(0.2, 0.21), seen(0.3, new Reading.Gauge(0.5, false)), length(0.3, 0.35)));
        Estimate first = new WearModel(PRIOR, Map.of("Amber", seen)).of("Amber").percent(0.3);
        Collections.reverse(seen);
        Estimate second =
                new WearModel(PRIOR, Map.of("Amber", seen)).of("Amber").percent(0.3);
        assertEquals(first.low(), second.low(), 1e-9);
        assertEquals(first.high(), second.high(), 1e-9);
    }

    @Test
    void moreExposureIsNeverLessElongation() {
        Elongation e = model(length(0.1, 0.3), length(0.2, 0.35)).of("Amber");
        double last = 0;
        for (double x = 0; x < 1; x += 0.05) {
            double now = e.percent(x).likely();
            assertTrue(now >= last - 1e-9, now + " % at " + x);
            last = now;
        }
    }

    @Test
    void oneAbsurdReadingIsNamedAndTheOthersAreNot() {
        Seen absurd = length(0.25, 0.9);
        List<WearModel.Doubt> doubts = model(length(0.1, 0.1), length(0.2, 0.2), absurd, length(0.3, 0.31))
                .doubts("Amber");
        assertEquals(List.of(absurd), doubts.stream().map(WearModel.Doubt::seen).toList());
        assertEquals(
                List.of(),
                model(length(0.1, 0.1), length(0.2, 0.2), length(0.3, 0.31)).doubts("Amber"));
    }

    @Test
    void aChainThatGetsShorterIsNamed() {
        assertEquals(
                1, model(length(0.2, 0.45), length(0.21, 0.1)).doubts("Amber").size());
        assertEquals(
                1,
                model(seen(0.2, new Reading.Gauge(0.75, true)), length(0.21, 0.2))
                        .doubts("Amber")
                        .size());
    }

    @Test
    void aLongFirstReadingOfAChainHardlyRiddenIsWhereItStarted() {
        Elongation e = model(length(0.001, 0.4)).of("Amber");
        assertTrue(e.isNew() < 0.01);
        assertEquals(0.4, e.percent(0.001).likely(), 0.01);
        assertEquals(0.4 + 0.1, e.percent(0.101).likely(), 0.03);
        assertTrue(model(length(0.001, 0.02)).of("Amber").isNew() > 0.98);
        // 2 x 0.05 x 2.6 / 3 = 9 % of first readings are so long; with a gauge that passes 0.5, 2 x 0.05 x 0.2 / 3 =
        // 0.7 %.
        assertEquals(List.of(), model(length(0.001, 0.4)).doubts("Amber"));
        assertEquals(
                List.of(),
                model(length(0.001, 0.3), seen(0.002, new Reading.Gauge(0.5, false)))
                        .doubts("Amber"));
    }

    /** By products: the chain ridden on one speaks for it, and the one that reads longer wears faster. */
    @Test
    void aProductIsToldByItsChainsReadings() {
        WearModel model = new WearModel(PRIOR, Map.of());
        Event.ProductDescribed oil = new Event.ProductDescribed("Marsh Oil", Method.WET_OIL, null, null);
        ProductWear none = model.of(oil, List.of(), 0.06);
        assertEquals(0, none.chains());
        assertEquals(0.06, none.percentPer1000Km().likely(), 1e-7);
        ProductWear wax =
                model.of(new Event.ProductDescribed("Kettle Block", Method.HOT_WAX, null, null), List.of(), 0.025);
        // log(0.06 / 0.025) = 0.875 apart, each 0.5 spread: 0.875 / 0.707 standard deviations.
        assertEquals(Normal.probability(Math.log(0.06 / 0.025) / (0.5 * Math.sqrt(2))), wax.isSlower(none), 1e-6);
        assertEquals(1, wax.isSlower(none) + none.isSlower(wax), 1e-6);
    }

    /** Riders drawn from the prior: the intervals hold the truth as often as they say. */
    @Test
    void eightyPerCentIntervalsHoldEightyPerCentOfTruths() {
        Random random = new Random(20260901);
        WearModel.Prior prior = new WearModel.Prior(0.35, 0.5, 0);
        int riders = 500;
        int[] held = new int[3];
        double alone = 0;
        double taught = 0;
        double narrower = 0;
        for (int i = 0; i < riders; i++) {
            double m = 0.5 * random.nextGaussian();
            double[] pace = new double[3];
            double[] expected = new double[3];
            for (int c = 0; c < 3; c++) {
                pace[c] = Math.exp(m + 0.35 * random.nextGaussian());
                expected[c] = 0.05 + 0.5 * random.nextDouble();
            }
            List<Seen> lengths = new ArrayList<>();
            List<Seen> gauges = new ArrayList<>();
            for (int k = 1; k <= 3; k++) {
                double x = expected[0] * k / 3;
                lengths.add(length(x, pace[0] * x + 0.05 * random.nextGaussian()));
                double y = expected[1] * k / 3;
                gauges.add(seen(y, new Reading.Gauge(0.5, pace[1] * y + 0.05 * random.nextGaussian() > 0.5)));
            }
            WearModel model = new WearModel(prior, Map.of("Amber", lengths, "Moss", gauges));
            List<String> names = List.of("Amber", "Moss", "Flint");
            for (int c = 0; c < 3; c++) {
                Estimate e = model.of(names.get(c)).percent(expected[c]);
                double truth = pace[c] * expected[c];
                held[c] += e.low() <= truth && truth <= e.high() ? 1 : 0;
            }
            alone += Math.abs(Math.log(pace[2]));
            taught += Math.abs(Math.log(pace[2] / model.of("Flint").pace().likely()));
            narrower += width(model.of("Flint").pace()) / (2 * Normal.Z90 * Math.hypot(0.35, 0.5));
        }
        System.out.printf(
                "wear: 80 %% intervals held %.1f %% (three lengths), %.1f %% (gauge), %.1f %% (no reading) of %d truths%n",
                100.0 * held[0] / riders, 100.0 * held[1] / riders, 100.0 * held[2] / riders, riders);
        System.out.printf(
                "wear: a third chain without readings: mean error of log pace %.3f alone, %.3f taught by the others;"
                        + " interval %.2f times as wide%n",
                alone / riders, taught / riders, narrower / riders);
        for (int h : held) {
            assertTrue(h >= 0.74 * riders && h <= 0.86 * riders, h + " of " + riders);
        }
        assertTrue(taught < 0.9 * alone, taught + " against " + alone);
        assertTrue(narrower < 0.9 * riders);
    }
}
