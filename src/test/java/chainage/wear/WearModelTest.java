package chainage.wear;

import static chainage.wear.Wears.length;
import static chainage.wear.Wears.seen;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.inference.Normal;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.ledger.Reading;
import chainage.quantity.Estimate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;

class WearModelTest {
    private static final WearModel.Prior PRIOR = Wears.USUAL;

    private static WearModel model(ReadingSeen... seen) {
        return Wears.model(PRIOR, seen);
    }

    private static Elongation amber(ReadingSeen... seen) {
        return model(seen).of("Amber");
    }

    private static double width(Estimate e) {
        return Math.log(e.high() / e.low());
    }

    @Test
    void noReadingsGiveThePrior() {
        Estimate e = model().of("Amber").percent(Expected.dry(0.2));
        double times = Math.exp(Normal.Z90 * Math.sqrt(0.35 * 0.35 + 0.5 * 0.5 + 0.3 * 0.3));
        assertEquals(0.2, e.likely(), 1e-7);
        assertEquals(0.2 / times, e.low(), 1e-6);
        assertEquals(0.2 * times, e.high(), 1e-6);
        assertEquals(List.of(), model().doubts("Amber"));
    }

    @Test
    void aReadingAtThePredictionNarrowsAndHardlyMoves() {
        Estimate before = model().of("Amber").percent(Expected.dry(0.3));
        Estimate after = model(length(0.3, 0.3)).of("Amber").percent(Expected.dry(0.3));
        assertTrue(width(after) < width(before) / 2);
        assertEquals(before.likely(), after.likely(), 0.02);
    }

    @Test
    void theOrderOfReadingsDoesNotMatter() {
        List<ReadingSeen> seen = new ArrayList<>(List.of(
                length(0.1, 0.12), length(0.2, 0.21), seen(0.3, new Reading.Gauge(0.5, false)), length(0.3, 0.35)));
        Estimate first = Wears.model(PRIOR, Map.of("Amber", seen)).of("Amber").percent(Expected.dry(0.3));
        Collections.reverse(seen);
        Estimate second = Wears.model(PRIOR, Map.of("Amber", seen)).of("Amber").percent(Expected.dry(0.3));
        assertEquals(first.low(), second.low(), 1e-9);
        assertEquals(first.high(), second.high(), 1e-9);
    }

    @Test
    void moreExposureIsNeverLessElongation() {
        Elongation e = model(length(0.1, 0.3), length(0.2, 0.35)).of("Amber");
        double last = 0;
        for (double x = 0; x < 1; x += 0.05) {
            double now = e.percent(Expected.dry(x)).likely();
            assertTrue(now >= last - 1e-9, now + " % at " + x);
            last = now;
        }
    }

    @Test
    void oneAbsurdReadingIsNamedAndTheOthersAreNot() {
        ReadingSeen absurd = length(0.25, 0.9);
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
        assertTrue(e.isNew() < 0.15, "or the reading is a slip");
        assertEquals(0.4, e.percent(Expected.dry(0.001)).likely(), 0.05);
        assertEquals(0.4 + 0.1, e.percent(Expected.dry(0.101)).likely(), 0.05);
        assertTrue(model(length(0.001, 0.02)).of("Amber").isNew() > 0.98);
        // 2 x 0.05 x e^(-0.4 / 0.35) = 3 % of first readings are so long; with a gauge that passes 0.5, less those
        // beyond.
        assertEquals(List.of(), model(length(0.001, 0.4)).doubts("Amber"));
        assertEquals(
                List.of(),
                model(length(0.001, 0.3), seen(0.002, new Reading.Gauge(0.5, false)))
                        .doubts("Amber"));
    }

    /** By products: the chain ridden on one speaks for it, and the one that reads longer wears faster. */
    @Test
    void aProductIsToldByItsChainsReadings() {
        WearModel model = Wears.model(PRIOR, Map.of());
        Event.ProductDescribed oil = new Event.ProductDescribed("Marsh Oil", Method.WET_LUBE, null, null);
        Event.ProductDescribed block = new Event.ProductDescribed("Kettle Block", Method.HOT_WAX, null, null);
        ProductWear none = model.of(oil, 0.06);
        assertEquals(0, none.chains());
        assertEquals(0.06, none.percentPer1000Km().likely(), 1e-7);
        // log(0.06 / 0.025) = 0.875 apart, each 0.3 spread; the rider's own pace is in both.
        double apart = Math.log(0.06 / 0.025) / (0.3 * Math.sqrt(2));
        assertEquals(Normal.probability(apart), model.of(block, 0.025).isSlower(none), 1e-6);
        assertEquals(1, model.of(block, 0.025).isSlower(none) + none.isSlower(model.of(block, 0.025)), 1e-6);
        // Two chains of one product wear twice as fast as the table, two of another as it says.
        Map<String, ChainWear> chains = new HashMap<>();
        for (String on : List.of("Kettle Block", "Marsh Oil")) {
            for (int i = 0; i < 2; i++) {
                double times = on.equals("Kettle Block") ? 2 : 1;
                chains.put(
                        on + i,
                        new ChainWear(
                                false,
                                Expected.dry(0.3),
                                Map.of(on, 1.0),
                                List.of(length(0.2, 0.2 * times), length(0.3, 0.3 * times))));
            }
        }
        WearModel seen = new WearModel(PRIOR, chains);
        assertEquals(2, seen.of(block, 0.025).chains());
        assertEquals(4, seen.of(block, 0.025).readings());
        double faster = seen.of(block, 1).percentPer1000Km().likely()
                / seen.of(oil, 1).percentPer1000Km().likely();
        assertTrue(faster > 1.2 && faster < 1.6, "pulled together, not apart: " + faster);
        assertTrue(seen.of(oil, 1).isSlower(seen.of(block, 1)) > 0.8);
    }

    /** An edge of 0.75 that drops after 400 km: a used chain, worn somewhat beyond it, and not to 2 %. */
    @Test
    void aLongChainHardlyRiddenIsNotBelievedToBeWornToTwice() {
        Estimate e = amber(seen(0.02, new Reading.Gauge(0.75, true))).percent(Expected.dry(0.02));
        assertTrue(e.low() > 0.7 && e.likely() > 0.8 && e.likely() < 1.1 && e.high() < 1.8, e.toString());
    }

    @Test
    void aUsedChainStartsAnywhereMostLikelyBelowOnePerCent() {
        ChainWear used = Wears.chain(true, List.of());
        Elongation e = new WearModel(PRIOR, Map.of("Amber", used)).of("Amber");
        assertEquals(0, e.isNew());
        assertEquals(0.06, 1 - e.atMost(1, Expected.NONE), 0.02);
        assertEquals(0.35 * Math.log(2), e.percent(Expected.NONE).likely(), 0.01);
        // A reading says where it started, in spite of how little it was ridden.
        ChainWear read = Wears.chain(true, List.of(length(0.01, 0.31)));
        assertEquals(
                0.31,
                new WearModel(PRIOR, Map.of("Amber", read))
                        .of("Amber")
                        .percent(Expected.dry(0.01))
                        .likely(),
                0.03);
    }

    /** A calliper that reads 0.1 too long on a new chain is believed to do so later. */
    @Test
    void theReadingOfANewChainPinsTheTool() {
        double without = amber(length(0.25, 0.35)).percent(Expected.dry(0.25)).likely();
        double with = amber(length(0, 0.1), length(0, 0.1), length(0.25, 0.35))
                .percent(Expected.dry(0.25))
                .likely();
        assertTrue(with < without - 0.03, with + " against " + without);
        // The new chain may be another one.
        WearModel both = Wears.model(
                PRIOR, Map.of("Amber", List.of(length(0.25, 0.35)), "Moss", List.of(length(0, 0.1), length(0, 0.1))));
        assertTrue(both.of("Amber").percent(Expected.dry(0.25)).likely() < without - 0.02);
    }

    @Test
    void conflictingReadingsWidenTheInterval() {
        double alike = width(amber(length(0.25, 0.25), length(0.25, 0.27)).percent(Expected.dry(0.25)));
        double apart = width(amber(length(0.25, 0.1), length(0.25, 0.42)).percent(Expected.dry(0.25)));
        assertTrue(apart > 1.5 * alike, apart + " against " + alike);
    }

    /** Under normal errors the slip moves the likely elongation by 0.09; here it hardly does. */
    @Test
    void aSlipWidensRatherThanMoves() {
        ReadingSeen[] good = {length(0.1, 0.11), length(0.2, 0.19), length(0.3, 0.32)};
        ReadingSeen[] slip = {length(0.1, 0.11), length(0.2, 0.19), length(0.3, 0.32), length(0.3, 0.75)};
        Estimate before = amber(good).percent(Expected.dry(0.3));
        Estimate after = amber(slip).percent(Expected.dry(0.3));
        assertEquals(before.likely(), after.likely(), 0.035);
        assertTrue(after.high() - after.low() > before.high() - before.low());
    }

    /** Ridden dry to 0.1 of the table, then wet: the wet part wears twice what the table says. */
    @Test
    void wetIsLearntFromReadings() {
        List<ReadingSeen> seen = new ArrayList<>();
        for (int k = 1; k <= 8; k++) {
            seen.add(length(0.1, 0.1));
        }
        for (int k = 1; k <= 8; k++) {
            seen.add(Wears.seen(
                    new Expected(0.1, 0.05 * k, 0, 0),
                    new Reading.Elongation(0.1 + 0.1 * k, Reading.Tool.CALLIPER, 8)));
        }
        WearModel model = Wears.model(PRIOR, Map.of("Amber", seen));
        assertTrue(model.wetter().likely() > 1.4, model.wetter().toString());
        assertEquals(1, model.grittier().likely(), 1e-9);
        assertTrue(model.wetter().low() > 1);
    }

    /** Riders drawn from the prior: the intervals hold the truth as often as they say. */
    @Test
    void eightyPerCentIntervalsHoldEightyPerCentOfTruths() {
        Random random = new Random(20260901);
        WearModel.Prior prior = Wears.plain(0.35, 0.5);
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
            List<ReadingSeen> lengths = new ArrayList<>();
            List<ReadingSeen> gauges = new ArrayList<>();
            for (int k = 1; k <= 3; k++) {
                double x = expected[0] * k / 3;
                lengths.add(length(x, pace[0] * x + 0.05 * random.nextGaussian()));
                double y = expected[1] * k / 3;
                gauges.add(seen(y, new Reading.Gauge(0.5, pace[1] * y + 0.05 * random.nextGaussian() > 0.5)));
            }
            WearModel model = Wears.model(prior, Map.of("Amber", lengths, "Moss", gauges));
            List<String> names = List.of("Amber", "Moss", "Flint");
            for (int c = 0; c < 3; c++) {
                Estimate e = model.of(names.get(c)).percent(Expected.dry(expected[c]));
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
