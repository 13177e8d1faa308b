package chainage.treatment;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.TestLedger;
import chainage.exposure.Factors;
import chainage.exposure.Leaning;
import chainage.exposure.Mix;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.quantity.Estimate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.junit.jupiter.api.Test;

/**
 * What lives teach, against Bayes' rule worked out by sums over dense grids of every unknown: the level, both leanings,
 * the spread of single lives and the chance of an end unremarked. The densities and probabilities are those of Apache
 * Commons Statistics. What the model leaves out by its few points shows as the bounds below: the accuracy stated in
 * DEVELOPERS.md.
 */
class LifeBruteForceTest {
    private static final Factors FACTORS = TestLedger.factors();
    private static final NormalDistribution UNIT = NormalDistribution.of(0, 1);
    private static final double LIFE = 300_000;
    private static final int LEVELS = 81;
    private static final int LEANINGS = 17;
    private static final int SPREADS = 15;
    private static final int CHANCES = 30;

    /** Spreads of what a product has of its own, in units of the level: 0.2 and 0.5 in the log of its typical life. */
    private static final double NEAR = 0.2 / new LifeShape(row(), 1.5).spread();

    private static final double FAR = 0.5 / new LifeShape(row(), 1.5).spread();
    private static final double SHARED = shared();

    /** What the products of a method share: so wide that nine in ten levels are below the standard normal's 90 % quantile. */
    private static double shared() {
        double at = UNIT.inverseCumulativeProbability(0.9);
        double shared = 0;
        while (0.75 * UNIT.cumulativeProbability(at / Math.hypot(shared, NEAR))
                        + 0.25 * UNIT.cumulativeProbability(at / Math.hypot(shared, FAR))
                > 0.9) {
            shared += 1e-5;
        }
        return shared;
    }

    private static Estimate row() {
        return Objects.requireNonNull(FACTORS.lifeMetres(Method.HOT_WAX));
    }

    private static double bell(double off, double spread) {
        return UNIT.density(off / spread) / spread;
    }

    private static final Event.ProductDescribed KETTLE =
            new Event.ProductDescribed("Kettle Block", Method.HOT_WAX, null, null);
    private static final Event.ProductDescribed OTHER =
            new Event.ProductDescribed("hot-wax", Method.HOT_WAX, null, null);

    /** The reference: weights of typical lives, with the other unknowns that go with each. */
    private record Reference(List<double[]> cells, Leaning leaning) {
        /** Sums the posterior; a leaning that nothing names is left at the table's where {@code roads} is false. */
        static Reference of(List<Life> lives, boolean roads) {
            LifeShape shape = new LifeShape(row(), 1.5);
            List<double[]> cells = new ArrayList<>();
            double all = 0;
            double wet = 0;
            double grit = 0;
            for (int a = 0; a < (roads ? LEANINGS : 1); a++) {
                for (int b = 0; b < (roads ? LEANINGS : 1); b++) {
                    double dw = roads ? grid(a, LEANINGS, 3.6) : 0;
                    double dg = roads ? grid(b, LEANINGS, 3.6) : 0;
                    Leaning leaning = new Leaning(Math.exp(0.5 * dw), Math.exp(0.5 * dg));
                    for (int s = 0; s < SPREADS; s++) {
                        double ds = grid(s, SPREADS, 3.6);
                        double single = 0.3 * Math.exp(0.3 * ds);
                        for (int k = 0; k < LEVELS; k++) {
                            double z = grid(k, LEVELS, 5);
                            double log = shape.logLife(z);
                            double prior = UNIT.density(dw) * UNIT.density(dg) * UNIT.density(ds) * level(z);
                            double w = prior * likelihood(lives, leaning, log, single);
                            cells.add(new double[] {log, single, leaning.wet(), leaning.grit(), w});
                            all += w;
                            wet += w * dw;
                            grit += w * dg;
                        }
                    }
                }
            }
            for (double[] c : cells) {
                c[4] /= all;
            }
            return new Reference(cells, new Leaning(Math.exp(0.5 * wet / all), Math.exp(0.5 * grit / all)));
        }

        /** Density of a level: the method's part, and the product's own, three in four times by the narrow spread. */
        private static double level(double z) {
            return 0.75 * bell(z, Math.hypot(SHARED, NEAR)) + 0.25 * bell(z, Math.hypot(SHARED, FAR));
        }

        private static double grid(int i, int points, double reach) {
            return reach * (2.0 * i / (points - 1) - 1);
        }

        private static double likelihood(List<Life> lives, Leaning leaning, double log, double single) {
            double[][] over = lives.stream()
                    .map(l -> new double[] {
                        over(l.before().metres(leaning), log, single),
                        over(l.after().metres(leaning), log, single)
                    })
                    .toArray(double[][]::new);
            // Of a rider who remarks 1 − (1 − ε)^b with a mean of 0.17, of the one in ten who never does 1.
            double b = 1 / 0.17 - 1;
            double sum = 0.1 * product(lives, over, 1);
            for (int e = 0; e < CHANCES; e++) {
                double u = (e + 0.5) / CHANCES;
                sum += 0.9 / CHANCES * product(lives, over, 1 - Math.pow(1 - u, 1 / b));
            }
            return sum;
        }

        private static double over(double metres, double log, double single) {
            return metres <= 0 ? 0 : UNIT.cumulativeProbability((Math.log(metres) - log) / single);
        }

        private static double product(List<Life> lives, double[][] over, double unremarked) {
            double product = 1;
            for (int i = 0; i < over.length; i++) {
                Life l = lives.get(i);
                double stray = over(l.after().metres(Leaning.NONE), Math.log(LIFE), 1)
                        - over(l.before().metres(Leaning.NONE), Math.log(LIFE), 1);
                product *= switch (l.end()) {
                    case NOISY -> 0.95 * (1 - unremarked) * (over[i][1] - over[i][0]) + 0.05 * stray;
                    case QUIET -> 0.95 * (1 - over[i][1]) + 0.05;
                    default -> 1 - over[i][1] + unremarked * over[i][1];
                };
            }
            return product;
        }

        /** Chance that a life is over by then, as the mix counts by the middle of what is known. */
        double isOver(double metres, Mix mix) {
            return cells.stream()
                    .mapToDouble(
                            c -> c[4] * UNIT.cumulativeProbability((Math.log(metres) + counted(c, mix) - c[0]) / c[1]))
                    .sum();
        }

        private double counted(double[] c, Mix mix) {
            return mix.plain() == 0 ? 0 : Math.log(mix.metres(new Leaning(c[2], c[3])) / mix.metres(leaning));
        }

        /** Quantile of the typical life, straight within a cell of the grid. */
        double typical(double p, Mix mix) {
            double[][] sorted = cells.stream()
                    .map(c -> new double[] {c[0] - counted(c, mix), c[4]})
                    .sorted((x, y) -> Double.compare(x[0], y[0]))
                    .toArray(double[][]::new);
            double sum = 0;
            for (double[] c : sorted) {
                sum += c[1];
                if (sum - c[1] / 2 >= p) {
                    return Math.exp(c[0]);
                }
            }
            return Double.NaN;
        }
    }

    private static void check(List<Life> lives, boolean roads) {
        ProductLife known = new LifeModel(lives, FACTORS).of(KETTLE);
        Leaning leaning = new LifeModel(lives, FACTORS).leaning();
        Reference reference = Reference.of(lives, roads);
        Mix mix = lives.stream().map(Life::after).reduce(Mix.NONE, Mix::plus);
        double worst = 0;
        for (double metres : new double[] {50_000, 100_000, 150_000, 200_000, 300_000, 400_000, 500_000}) {
            double off = known.isOver(metres) - reference.isOver(metres, mix);
            worst = Math.max(worst, Math.abs(off));
        }
        double typical = 0;
        for (double p : new double[] {0.1, 0.5, 0.9}) {
            double mine = p == 0.1
                    ? known.typical().low()
                    : p == 0.5 ? known.typical().likely() : known.typical().high();
            typical = Math.max(typical, Math.abs(Math.log(mine / reference.typical(p, Mix.NONE))));
        }
        double leant = Math.max(
                Math.abs(Math.log(leaning.wet() / reference.leaning().wet())),
                Math.abs(Math.log(leaning.grit() / reference.leaning().grit())));
        System.out.printf(
                "lives: %d seen, chances off by up to %.4f, typical lives by %.3f and leanings by %.3f in the log%n",
                lives.size(), worst, typical, leant);
        assertTrue(worst < 0.008, "chance off by " + worst);
        assertTrue(typical < 0.05, "typical life off by " + typical);
        assertTrue(leant < 0.03, "leaning off by " + leant);
        for (double p : new double[] {0.05, 0.1, 0.5, 0.9}) {
            assertEquals(p, known.isOver(known.single(p)), 1e-6);
        }
    }

    private static Life dry(double km, Life.End end) {
        return TestLives.life(KETTLE, km, end);
    }

    /** A life of so many kilometres, of which so many wet and so many gritty. */
    private static Life mixed(double km, double wet, double gritty, Life.End end) {
        Mix after = new Mix(km * 1000, 3000 * wet, 1000 * gritty, 0);
        double before = end == Life.End.NOISY ? 0.8 : 1;
        return TestLives.life(
                KETTLE, new Mix(before * after.plain(), before * after.wet(), before * after.grit(), 0), after, end);
    }

    @Test
    void onDryRoads() {
        check(List.of(), false);
        check(List.of(dry(240, Life.End.NOISY)), false);
        check(List.of(dry(420, Life.End.RENEWED)), false);
        check(List.of(dry(420, Life.End.QUIET)), false);
        check(
                List.of(
                        dry(240, Life.End.NOISY),
                        dry(410, Life.End.RENEWED),
                        dry(330, Life.End.NOISY),
                        dry(60, Life.End.NOISY),
                        dry(200, Life.End.QUIET)),
                false);
    }

    @Test
    void ofARiderWhoNeverRemarks() {
        Life[] silent = new Life[12];
        Arrays.fill(silent, dry(450, Life.End.RENEWED));
        check(List.of(silent), false);
    }

    @Test
    void onAllRoads() {
        List<Life> lives = new ArrayList<>();
        double[][] of = {{250, 0, 0}, {120, 40, 0}, {180, 0, 80}, {90, 30, 20}, {230, 10, 30}, {70, 55, 0}};
        for (double[] l : of) {
            lives.add(mixed(l[0], l[1], l[2], Life.End.NOISY));
        }
        lives.add(mixed(160, 20, 20, Life.End.RENEWED));
        check(lives.subList(0, 2), true);
        check(lives, true);
        List<Life> many = new ArrayList<>(lives);
        many.addAll(lives);
        many.addAll(lives);
        check(many, true);
    }

    /** Of one beside another: the other's lives move it, but less than its own would. */
    @Test
    void productsOfOneMethodTeachEachOther() {
        List<Life> others = List.of(
                TestLives.life(OTHER, 200, Life.End.NOISY),
                TestLives.life(OTHER, 210, Life.End.NOISY),
                TestLives.life(OTHER, 190, Life.End.NOISY));
        double none = new LifeModel(List.of(), FACTORS).of(KETTLE).typical().likely();
        double taught = new LifeModel(others, FACTORS).of(KETTLE).typical().likely();
        double told = new LifeModel(others, FACTORS).of(OTHER).typical().likely();
        assertTrue(told < taught && taught < none, told + " < " + taught + " < " + none);
    }

    /** Two products of one method, alike and not: their typical lives, and the chance that the one's is the longer. */
    @Test
    void whatTwoProductsOfOneMethodShareIsByBayesRule() {
        pair(new double[] {230, 250, 260, 240}, new double[] {260, 250, 280, 230});
        pair(new double[] {230, 250, 260, 240}, new double[] {420, 460, 510, 440});
        pair(new double[] {230, 250, 260, 240}, new double[] {460});
    }

    private static void pair(double[] mine, double[] its) {
        List<Life> lives = new ArrayList<>();
        Arrays.stream(mine).forEach(km -> lives.add(dry(km, Life.End.NOISY)));
        Arrays.stream(its).forEach(km -> lives.add(TestLives.life(OTHER, km, Life.End.NOISY)));
        LifeModel model = new LifeModel(lives, FACTORS);
        LifeShape shape = new LifeShape(row(), 1.5);
        int points = 161;
        double[] level = new double[points];
        double longer = 0;
        double all = 0;
        double[] mean = new double[2];
        for (int s = 0; s < SPREADS; s++) {
            double ds = Reference.grid(s, SPREADS, 3.6);
            double single = 0.3 * Math.exp(0.3 * ds);
            // Nobody who never remarks has noted a noise, but strays may be one in twenty: those are too few to matter.
            for (int e = 0; e < CHANCES; e++) {
                double b = 1 / 0.17 - 1;
                double unremarked = 1 - Math.pow(1 - (e + 0.5) / CHANCES, 1 / b);
                double[][] likelihood = new double[2][points];
                for (int k = 0; k < points; k++) {
                    level[k] = Reference.grid(k, points, 5);
                    double log = shape.logLife(level[k]);
                    likelihood[0][k] = heard(lives.subList(0, mine.length), log, single, unremarked);
                    likelihood[1][k] = heard(lives.subList(mine.length, lives.size()), log, single, unremarked);
                }
                for (int f = 0; f < 61; f++) {
                    double shared = Reference.grid(f, 61, 4.5);
                    double[][] of = new double[2][points];
                    double[] sum = new double[2];
                    double[] first = new double[2];
                    for (int k = 0; k < points; k++) {
                        double off = level[k] - SHARED * shared;
                        double prior = 0.75 * bell(off, NEAR) + 0.25 * bell(off, FAR);
                        for (int i = 0; i < 2; i++) {
                            of[i][k] = prior * likelihood[i][k];
                            sum[i] += of[i][k];
                            first[i] += of[i][k] * shape.logLife(level[k]);
                        }
                    }
                    double weight = UNIT.density(ds) * UNIT.density(shared);
                    all += weight * sum[0] * sum[1];
                    mean[0] += weight * first[0] * sum[1];
                    mean[1] += weight * first[1] * sum[0];
                    double below = 0;
                    for (int k = 0; k < points; k++) {
                        longer += weight * of[1][k] * (below + of[0][k] / 2);
                        below += of[0][k];
                    }
                }
            }
        }
        ProductLife kettle = model.of(KETTLE);
        ProductLife other = model.of(OTHER);
        double chance = other.isLonger(kettle);
        System.out.printf(
                "pair: typical lives %.0f and %.0f km, by sums %.0f and %.0f; the second's longer %.3f, by sums %.3f%n",
                kettle.typical().likely() / 1000,
                other.typical().likely() / 1000,
                Math.exp(mean[0] / all) / 1000,
                Math.exp(mean[1] / all) / 1000,
                chance,
                longer / all);
        assertEquals(mean[0] / all, Math.log(kettle.typical().likely()), 0.04);
        assertEquals(mean[1] / all, Math.log(other.typical().likely()), 0.06);
        assertEquals(longer / all, chance, 0.02);
    }

    private static double heard(List<Life> lives, double log, double single, double unremarked) {
        double[][] over = lives.stream()
                .map(l -> new double[] {
                    Reference.over(l.before().metres(Leaning.NONE), log, single),
                    Reference.over(l.after().metres(Leaning.NONE), log, single)
                })
                .toArray(double[][]::new);
        return Reference.product(lives, over, unremarked);
    }

    @Test
    void everyProductWithALifeIsListedOnce() {
        LifeModel model = new LifeModel(
                List.of(
                        TestLives.life(OTHER, 300, Life.End.NOISY),
                        dry(240, Life.End.NOISY),
                        TestLives.life(OTHER, 100, Life.End.RUNNING)),
                FACTORS);
        assertEquals(
                List.of(OTHER, KETTLE),
                model.products().stream().map(ProductLife::product).toList());
        assertTrue(model.products().get(0).isLonger(model.products().get(1)) > 0.5);
    }
}
