package chainage.treatment;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.quantity.Estimate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class LifeModelTest {
    private static final Factors FACTORS = TestLedger.factors();
    private static final Event.ProductDescribed KETTLE =
            new Event.ProductDescribed("Kettle Block", Method.HOT_WAX, null, null);
    private static final Event.ProductDescribed OTHER =
            new Event.ProductDescribed("hot-wax", Method.HOT_WAX, null, null);

    private static Life life(Event.ProductDescribed product, double km, Life.End end) {
        return TestLives.life(product, km, end);
    }

    private static ProductLife of(Life... lives) {
        return new LifeModel(List.of(lives), FACTORS).of(KETTLE);
    }

    /** Half as far again from the likely life, in the log. */
    private static double wider(double end, Estimate table) {
        return table.likely() * Math.pow(end / table.likely(), 1.5);
    }

    @ParameterizedTest
    @EnumSource(value = Method.class, names = "NONE", mode = EnumSource.Mode.EXCLUDE)
    void withoutLivesTheTypicalLifeIsTheTables(Method method) {
        Estimate table = Objects.requireNonNull(FACTORS.lifeMetres(method));
        Estimate typical = new LifeModel(List.of(), FACTORS)
                .of(new Event.ProductDescribed("x", method, null, null))
                .typical();
        assertEquals(table.likely(), typical.likely(), 0.005 * table.likely());
        assertEquals(wider(table.low(), table), typical.low(), 0.02 * table.low());
        assertEquals(wider(table.high(), table), typical.high(), 0.02 * table.high());
    }

    @Test
    void theShapeRisesAndIsUndoneForAnyInterval() {
        for (double[] i : new double[][] {{200, 300, 400}, {100, 300, 310}, {299, 300, 900}, {100, 200, 400}}) {
            LifeShape shape = new LifeShape(new Estimate(i[0], i[1], i[2]));
            double last = Double.NEGATIVE_INFINITY;
            for (double z = -8; z <= 8; z += 0.25) {
                double now = shape.logLife(z);
                assertTrue(now > last);
                assertEquals(z, shape.level(now), 1e-6);
                last = now;
            }
        }
    }

    @Test
    void anEndPullsASilencePushesAndBothNarrow() {
        Estimate none = of().typical();
        Estimate soon = of(life(KETTLE, 200, Life.End.NOISY)).typical();
        Estimate late = of(life(KETTLE, 400, Life.End.RENEWED)).typical();
        assertTrue(soon.likely() < none.likely() && none.likely() < late.likely());
        assertTrue(Math.log(soon.high() / soon.low()) < Math.log(none.high() / none.low()));
        // A silence that is no surprise says next to nothing.
        assertEquals(
                none.likely(), of(life(KETTLE, 50, Life.End.RENEWED)).typical().likely(), 1000);
    }

    @Test
    void productsOfOneMethodTeachEachOtherAPart() {
        Life[] soon = new Life[6];
        for (int i = 0; i < soon.length; i++) {
            soon[i] = life(OTHER, 200, Life.End.NOISY);
        }
        double told = new LifeModel(List.of(soon), FACTORS).of(OTHER).typical().likely();
        double taught = of(soon).typical().likely();
        assertTrue(told < taught && taught < of().typical().likely(), told + " < " + taught);
        assertEquals(6, of(soon).otherLives());
    }

    @Test
    void theOrderOfLivesDoesNotMatter() {
        List<Life> lives = new ArrayList<>(List.of(
                life(KETTLE, 250, Life.End.NOISY),
                life(OTHER, 400, Life.End.RENEWED),
                life(KETTLE, 310, Life.End.RUNNING)));
        double one = new LifeModel(lives, FACTORS).of(KETTLE).single(0.1);
        Collections.reverse(lives);
        assertEquals(one, new LifeModel(lives, FACTORS).of(KETTLE).single(0.1), 1e-6 * one);
    }

    @Test
    void theCautiousLimitIsBelowTheLikelyAndHoldsItsRisk() {
        ProductLife p = of(life(KETTLE, 250, Life.End.NOISY));
        assertTrue(p.single(0.1) < p.typical().likely());
        assertEquals(0.1, p.isOver(p.single(0.1)), 1e-6);
        assertEquals(0.5, p.isLonger(p), 1e-6);
    }

    @Test
    void aLifeFarFromAllOthersIsNamed() {
        Life[] lives = {
            life(KETTLE, 300, Life.End.NOISY),
            life(KETTLE, 280, Life.End.NOISY),
            life(KETTLE, 320, Life.End.NOISY),
            life(KETTLE, 40, Life.End.NOISY)
        };
        List<ProductLife.Doubt> doubts = of(lives).doubts();
        assertEquals(
                List.of(lives[3]), doubts.stream().map(ProductLife.Doubt::life).toList());
        assertEquals(1, of(life(KETTLE, 2000, Life.End.RUNNING)).doubts().size());
        assertEquals(0, of(life(KETTLE, 280, Life.End.NOISY)).doubts().size());
    }

    /** Against the chance of each life by a model of all the others, made anew. */
    @Test
    void amongManyLivesThoseAreDoubtedThatTheOthersDoNotExplain() {
        Random random = new Random(20261127);
        for (int round = 0; round < 3; round++) {
            List<Life> lives = new ArrayList<>(
                    List.of(life(KETTLE, 30 + round, Life.End.NOISY), life(KETTLE, 2500 + round, Life.End.NOISY)));
            for (int i = 0; i < 24; i++) {
                double km = 320 * Math.exp(0.25 * random.nextGaussian());
                lives.add(life(KETTLE, i % 3 == 0 ? 0.7 * km : km, i % 3 == 0 ? Life.End.RENEWED : Life.End.NOISY));
            }
            List<Life> doubted = of(lives.toArray(Life[]::new)).doubts().stream()
                    .map(ProductLife.Doubt::life)
                    .toList();
            for (Life life : lives) {
                ProductLife others =
                        of(lives.stream().filter(l -> !l.equals(life)).toArray(Life[]::new));
                double over = others.isOver(life.metres());
                double chance = life.ended() ? 2 * Math.min(over, 1 - others.isOver(life.fromMetres())) : 1 - over;
                // Between the two it hangs on which other doubtful life was left out before.
                if (chance < 0.001 || chance > 0.05) {
                    assertEquals(chance < 0.001, doubted.contains(life), life + " " + chance);
                }
            }
            assertTrue(doubted.containsAll(lives.subList(0, 2)), doubted.toString());
        }
    }

    /** Riders drawn from the prior: the intervals hold the truth as often as they say. */
    @Test
    void eightyPerCentIntervalsHoldEightyPerCentOfTruths() {
        Random random = new Random(20260902);
        LifeShape shape = new LifeShape(Objects.requireNonNull(FACTORS.lifeMetres(Method.HOT_WAX)));
        Own own = LifePrior.of(FACTORS).own(shape);
        double single = FACTORS.value("life.single");
        int riders = 500;
        int typical = 0;
        int next = 0;
        for (int i = 0; i < riders; i++) {
            double method = Level.table(own).loading() * random.nextGaussian();
            double[] log = new double[2];
            List<Life> lives = new ArrayList<>();
            for (int p = 0; p < 2; p++) {
                double spread = random.nextDouble() < own.odd() ? own.far() : own.near();
                log[p] = shape.logLife(method + spread * random.nextGaussian());
                for (int k = 0; k < 5; k++) {
                    double km = Math.exp(log[p] + single * random.nextGaussian()) / 1000;
                    double renewed = 150 + 300 * random.nextDouble();
                    lives.add(life(
                            p == 0 ? KETTLE : OTHER,
                            Math.min(km, renewed),
                            km <= renewed ? Life.End.NOISY : Life.End.RENEWED));
                }
            }
            ProductLife known = new LifeModel(lives, FACTORS).of(KETTLE);
            double truth = Math.exp(log[0]);
            typical +=
                    known.typical().low() <= truth && truth <= known.typical().high() ? 1 : 0;
            double life = Math.exp(log[0] + single * random.nextGaussian());
            next += known.single(0.1) <= life && life <= known.single(0.9) ? 1 : 0;
        }
        System.out.printf(
                "treatment: 80 %% intervals held %.1f %% of %d typical lives and %.1f %% of the next lives%n",
                100.0 * typical / riders, riders, 100.0 * next / riders);
        assertTrue(typical >= 0.74 * riders && typical <= 0.86 * riders, typical + " of " + riders);
        assertTrue(next >= 0.74 * riders && next <= 0.86 * riders, next + " of " + riders);
    }
}
