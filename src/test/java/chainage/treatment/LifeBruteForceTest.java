package chainage.treatment;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.quantity.Estimate;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;

/**
 * What lives teach, against Bayes' rule worked out on a grid of a product's level, by the densities and probabilities of
 * Apache Commons Statistics.
 */
class LifeBruteForceTest {
    private static final Factors FACTORS = TestLedger.factors();
    private static final NormalDistribution UNIT = NormalDistribution.of(0, 1);
    private static final LifeShape SHAPE = new LifeShape(Objects.requireNonNull(FACTORS.lifeMetres(Method.HOT_WAX)));
    private static final double SINGLE = FACTORS.value("life.single");
    private static final double OWN = FACTORS.value("life.product") / SHAPE.spread();
    private static final double STEP = 0.005;
    private static final int POINTS = (int) (12 / STEP);

    private static final Event.ProductDescribed KETTLE =
            new Event.ProductDescribed("Kettle Block", Method.HOT_WAX, null, null);
    private static final Event.ProductDescribed OTHER =
            new Event.ProductDescribed("hot-wax", Method.HOT_WAX, null, null);

    private static Life life(Event.ProductDescribed product, double km, Life.End end) {
        return new Life("Amber", product, Instant.EPOCH, km * 1000, end);
    }

    private static double level(int i) {
        return -6 + (i + 0.5) * STEP;
    }

    private static double likelihood(double level, List<Life> lives) {
        double product = 1;
        for (Life l : lives) {
            double z = (Math.log(l.metres()) - SHAPE.logLife(level)) / SINGLE;
            product *= l.ended() ? UNIT.density(z) : UNIT.survivalProbability(z);
        }
        return product;
    }

    /** Weights of the levels of a product, by its own lives and those of others. */
    private static double[] weights(List<Life> own, List<List<Life>> others) {
        double shared = Math.sqrt(1 - OWN * OWN);
        double[] weights = new double[POINTS];
        for (double m = -6 * shared; m <= 6 * shared; m += shared / 20) {
            double by = UNIT.density(m / shared);
            for (List<Life> other : others) {
                double sum = 0;
                for (double z = -6; z <= 6; z += 0.02) {
                    sum += UNIT.density(z) * likelihood(m + OWN * z, other);
                }
                by *= sum;
            }
            for (int i = 0; i < POINTS; i++) {
                weights[i] += by * UNIT.density((level(i) - m) / OWN);
            }
        }
        for (int i = 0; i < POINTS; i++) {
            weights[i] *= likelihood(level(i), own);
        }
        double all = Arrays.stream(weights).sum();
        return Arrays.stream(weights).map(w -> w / all).toArray();
    }

    private static Estimate typical(double[] weights) {
        double[] at = new double[3];
        double sum = 0;
        for (int i = 0; i < POINTS; i++) {
            for (int q = 0; q < 3; q++) {
                at[q] = sum < new double[] {0.1, 0.5, 0.9}[q] ? Math.exp(SHAPE.logLife(level(i))) : at[q];
            }
            sum += weights[i];
        }
        return new Estimate(at[0], at[1], at[2]);
    }

    private static void check(List<Life> own, List<List<Life>> others) {
        List<Life> all = new java.util.ArrayList<>(own);
        others.forEach(all::addAll);
        ProductLife known = new LifeModel(all, FACTORS).of(KETTLE);
        double[] weights = weights(own, others);
        Estimate typical = typical(weights);
        assertEquals(typical.low(), known.typical().low(), 0.005 * typical.low());
        assertEquals(typical.likely(), known.typical().likely(), 0.005 * typical.likely());
        assertEquals(typical.high(), known.typical().high(), 0.005 * typical.high());
        for (double metres : new double[] {50_000, 200_000, 300_000, 500_000}) {
            double over = 0;
            for (int i = 0; i < POINTS; i++) {
                over += weights[i] * UNIT.cumulativeProbability((Math.log(metres) - SHAPE.logLife(level(i))) / SINGLE);
            }
            assertEquals(over, known.isOver(metres), 0.002, metres + " m");
        }
        assertEquals(0, known.isOver(0));
        assertEquals(own.size(), known.lives().size());
        assertEquals(own.stream().filter(Life::ended).count(), known.ended());
        assertEquals(own.size() - known.ended(), known.silent());
        for (double p : new double[] {0.05, 0.1, 0.5, 0.9}) {
            assertEquals(p, known.isOver(known.single(p)), 1e-6);
        }
    }

    @Test
    void ofAProductAlone() {
        check(List.of(), List.of());
        check(List.of(life(KETTLE, 240, Life.End.NOISY)), List.of());
        check(List.of(life(KETTLE, 420, Life.End.RENEWED)), List.of());
        check(
                List.of(
                        life(KETTLE, 240, Life.End.NOISY),
                        life(KETTLE, 410, Life.End.RENEWED),
                        life(KETTLE, 330, Life.End.NOISY),
                        life(KETTLE, 100, Life.End.RUNNING)),
                List.of());
    }

    @Test
    void ofOneBesideAnother() {
        List<Life> others = List.of(life(OTHER, 200, Life.End.NOISY), life(OTHER, 260, Life.End.NOISY));
        check(List.of(), List.of(others));
        check(List.of(life(KETTLE, 420, Life.End.RENEWED)), List.of(others));
    }

    /**
     * How rare a life is by all the others: the same chance as with the life left out, which is exact where spreads are
     * normal; the shape is nearly straight here.
     */
    @Test
    void aDoubtIsAsRareAsItSays() {
        List<Life> others = List.of(
                life(KETTLE, 300, Life.End.NOISY),
                life(KETTLE, 280, Life.End.NOISY),
                life(KETTLE, 320, Life.End.NOISY));
        Life soon = life(KETTLE, 120, Life.End.NOISY);
        double[] weights = weights(others, List.of());
        double sooner = 0;
        for (int i = 0; i < POINTS; i++) {
            sooner += weights[i] * UNIT.cumulativeProbability((Math.log(120_000) - SHAPE.logLife(level(i))) / SINGLE);
        }
        List<Life> all = new java.util.ArrayList<>(others);
        all.add(soon);
        List<ProductLife.Doubt> doubts = new LifeModel(all, FACTORS).of(KETTLE).doubts();
        assertEquals(1, doubts.size());
        assertEquals(2 * sooner, doubts.get(0).chance(), 0.3 * 2 * sooner);
    }

    @Test
    void everyProductWithALifeIsListedOnce() {
        LifeModel model = new LifeModel(
                List.of(
                        life(OTHER, 300, Life.End.NOISY),
                        life(KETTLE, 280, Life.End.NOISY),
                        life(OTHER, 100, Life.End.RUNNING)),
                FACTORS);
        assertEquals(
                List.of(OTHER, KETTLE),
                model.products().stream().map(ProductLife::product).toList());
        assertTrue(model.products().get(0).isLonger(model.products().get(1)) > 0.5);
    }
}
