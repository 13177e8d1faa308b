package chainage.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.comparison.PairComparison.Aspect;
import chainage.comparison.PairComparison.Finding;
import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.quantity.Estimate;
import chainage.treatment.Life;
import chainage.treatment.LifeModel;
import chainage.treatment.TestLives;
import chainage.wear.WearModel;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Test;

class MoreToSeeTest {
    private static final Factors FACTORS = TestLedger.factors();
    private static final Event.ProductDescribed KETTLE =
            new Event.ProductDescribed("Kettle Block", Method.HOT_WAX, null, null);
    private static final Event.ProductDescribed LANTERN =
            new Event.ProductDescribed("Lantern Drip", Method.HOT_WAX, null, null);

    private static Life life(Event.ProductDescribed product, double km, Life.End end) {
        return TestLives.life(product, km, end);
    }

    private static PairComparison byLife(List<Life> lives) {
        LifeModel model = new LifeModel(lives, FACTORS);
        WearModel wear = new WearModel(new WearModel.Prior(0.35, 0.5, 0.3, 0.5, 0.05, 0.05, 0.35, true), Map.of());
        List<ComparedProduct> candidates = List.of(
                ComparedProduct.of(KETTLE, model, wear, FACTORS), ComparedProduct.of(LANTERN, model, wear, FACTORS));
        return PairComparison.of(candidates, Spreads.of(FACTORS)).get(0);
    }

    /** Two variances of 0.02 and a difference of 0.2: 1.2816² · 2 / (50 + 16 n) ≤ 0.04 from n = 2.007 on, by hand. */
    @Test
    void theLeastNumberIsTheOneByHand() {
        assertEquals(3, MoreToSee.least(0.2, n -> 2 / (1 / 0.02 + n / (0.25 * 0.25))));
        assertEquals(1, MoreToSee.least(2, n -> 0.02));
        assertTrue(new MoreToSee(MoreToSee.least(0.001, n -> 0.02), MoreToSee.What.TREATMENTS).hopeless());
    }

    @Test
    void theVarianceIsThatOfTheInterval() {
        double sigma = 0.3;
        double z = 1.2815515655446004; // quantiles.csv of the reference
        assertEquals(
                sigma * sigma,
                MoreToSee.variance(new Estimate(Math.exp(5 - z * sigma), Math.exp(5), Math.exp(5 + z * sigma))),
                1e-12);
    }

    @Test
    void withoutLivesOfBothThereIsNoVerdict() {
        assertEquals(Finding.UNSEEN, byLife(List.of()).finding());
        List<Life> one = new ArrayList<>();
        for (int i = 0; i < 8; i++) {
            one.add(life(KETTLE, 150, Life.End.NOISY));
        }
        assertEquals(Finding.UNSEEN, byLife(one).finding());
    }

    @Test
    void manyLivesFarApartGiveAVerdict() {
        List<Life> lives = new ArrayList<>();
        for (int i = 0; i < 6; i++) {
            lives.add(life(KETTLE, 200 + i, Life.End.NOISY));
            lives.add(life(LANTERN, 320 + i, Life.End.NOISY));
        }
        PairComparison v = byLife(lives);
        assertEquals(Finding.FIRM, v.finding());
        assertEquals("Lantern Drip", v.better().product());
    }

    /** What the forecast of the number still needed is worth: give both that many lives more, and look. */
    @Test
    void asManyMoreLivesAsToldShowTheDifference() {
        long seed = 41;
        Random random = new Random(seed);
        int shown = 0;
        int riders = 60;
        List<Integer> told = new ArrayList<>();
        for (int rider = 0; rider < riders; rider++) {
            List<Life> lives = new ArrayList<>(List.of(
                    life(KETTLE, 200 + 30 * random.nextDouble(), Life.End.NOISY),
                    life(LANTERN, 300 + 30 * random.nextDouble(), Life.End.NOISY)));
            PairComparison now = byLife(lives);
            assertEquals(Finding.NOT_YET, now.finding(), "seed " + seed);
            MoreToSee need = Objects.requireNonNull(now.more());
            assertTrue(!need.hopeless(), "seed " + seed);
            told.add(need.count());
            // Lives that keep the middle values where they are.
            Estimate a = now.better().life().typical();
            Estimate b = now.worse().life().typical();
            for (int i = 0; i < need.count(); i++) {
                lives.add(life(now.better().life().product(), a.likely() / 1000, Life.End.NOISY));
                lives.add(life(now.worse().life().product(), b.likely() / 1000, Life.End.NOISY));
            }
            shown += byLife(lives).chance() >= PairComparison.FIRM ? 1 : 0;
        }
        System.out.printf(
                "compare: told %s more lives; with them %d of %d show it (seed %d)%n", told, shown, riders, seed);
        assertTrue(shown >= 0.9 * riders, shown + " of " + riders + ", seed " + seed);
    }

    @Test
    void livesComeBeforeWearAndWhatIsAlikeHasEvenChances() {
        LifeModel model = new LifeModel(List.of(), FACTORS);
        WearModel wear = new WearModel(new WearModel.Prior(0.35, 0.5, 0.3, 0.5, 0.05, 0.05, 0.35, true), Map.of());
        List<PairComparison> all = PairComparison.of(
                List.of(
                        ComparedProduct.of(KETTLE, model, wear, FACTORS),
                        ComparedProduct.of(LANTERN, model, wear, FACTORS)),
                Spreads.of(FACTORS));
        assertEquals(
                List.of(Aspect.LIFE, Aspect.WEAR),
                all.stream().map(PairComparison::aspect).toList());
        assertEquals(0.5, all.get(1).chance(), 1e-6);
    }
}
