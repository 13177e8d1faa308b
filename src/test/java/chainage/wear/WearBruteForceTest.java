package chainage.wear;

import static chainage.wear.Wears.edge;
import static chainage.wear.Wears.length;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.ledger.Reading;
import chainage.quantity.Estimate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleBiFunction;
import java.util.stream.Stream;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The model of one chain against Bayes' rule worked out point by point: every start in steps of 0.005 % beside the new
 * one, every pace in steps of a hundredth of its spread, weighed by the densities and probabilities of Apache Commons
 * Statistics. Slow and without a shortcut, where the model uses bounds, lattices and slices.
 */
class WearBruteForceTest {
    private static final double OWN = 0.35;
    private static final double SHARED = 0.5;
    private static final double TOTAL = Math.hypot(OWN, SHARED);
    private static final double START = 0.35;
    private static final NormalDistribution UNIT = NormalDistribution.of(0, 1);
    private static final TDistribution STUDENT = TDistribution.of(4);

    private static WearModel.Prior prior(double worn) {
        return new WearModel.Prior(OWN, SHARED, 0, 0, 0, worn, START, true);
    }

    private static double startDensity(double start) {
        return Math.exp(-start / START) / START / -Math.expm1(-WearModel.LONGEST / START);
    }

    /** One start and pace, and how much speaks for it. */
    private record Point(double start, double pace, double weight) {}

    private static double likelihood(Reading reading, double percent) {
        double error = reading.errorPercent();
        if (reading instanceof Reading.Elongation e) {
            return STUDENT.density((e.percent() - percent) / error) / error;
        }
        Reading.Gauge g = (Reading.Gauge) reading;
        double drops = STUDENT.cumulativeProbability((percent - g.edgePercent()) / error);
        return g.drops() ? drops : 1 - drops;
    }

    private static List<Point> points(double worn, List<ReadingSeen> seen) {
        List<Point> points = new ArrayList<>();
        double step = 0.005;
        for (int i = -1; i < (worn == 0 ? 0 : (int) (WearModel.LONGEST / step)); i++) {
            double start = i < 0 ? 0 : (i + 0.5) * step;
            double prior = i < 0 ? 1 - worn : worn * step * startDensity(start);
            for (double z = -5; z <= 5; z += 0.01) {
                double pace = Math.exp(z * TOTAL);
                double weight = prior * UNIT.density(z);
                for (ReadingSeen s : seen) {
                    weight *= likelihood(s.reading(), start + pace * s.expectedPercent());
                }
                if (weight > 0) {
                    points.add(new Point(start, pace, weight));
                }
            }
        }
        double all = points.stream().mapToDouble(Point::weight).sum();
        return points.stream()
                .map(p -> new Point(p.start(), p.pace(), p.weight() / all))
                .toList();
    }

    private static Estimate quantiles(List<Point> points, double x, ToDoubleBiFunction<Point, Double> value) {
        List<double[]> sorted = points.stream()
                .map(p -> new double[] {value.applyAsDouble(p, x), p.weight()})
                .sorted(Comparator.comparingDouble(v -> v[0]))
                .toList();
        double[] at = new double[3];
        double sum = 0;
        for (double[] v : sorted) {
            for (int q = 0; q < 3; q++) {
                at[q] = sum < new double[] {0.1, 0.5, 0.9}[q] ? v[0] : at[q];
            }
            sum += v[1];
        }
        return new Estimate(at[0], at[1], at[2]);
    }

    static Stream<Arguments> chains() {
        return Stream.of(
                Arguments.of("new by all readings", 0.05, List.of(length(0.1, 0.11), length(0.25, 0.3))),
                Arguments.of("never worn before", 0.0, List.of(length(0.05, 0.2), edge(0.3, 0.5, false))),
                Arguments.of("hardly ridden and long", 0.05, List.of(length(0.001, 0.4))),
                Arguments.of("long, and grown as expected", 0.05, List.of(length(0.05, 0.35), length(0.25, 0.55))),
                Arguments.of("in doubt", 0.05, List.of(length(0.06, 0.19))),
                Arguments.of("in doubt, and often", 0.5, List.of(length(0.06, 0.19), edge(0.2, 0.5, false))),
                Arguments.of("between two edges", 0.05, List.of(edge(0.2, 0.25, true), edge(0.3, 0.5, false))),
                Arguments.of("long by an edge", 0.2, List.of(edge(0.01, 0.75, true), length(0.02, 0.9))),
                Arguments.of("slow", 0.05, List.of(length(0.4, 0.1), length(0.5, 0.16))));
    }

    /** Within what slices of the starts blur: a twentieth of the interval, or 0.004 %. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("chains")
    void theModelIsBayesRule(String name, double worn, List<ReadingSeen> seen) {
        Elongation known = Wears.model(prior(worn), Map.of("Amber", seen)).of("Amber");
        List<Point> points = points(worn, seen);
        double isNew = points.stream()
                .filter(p -> p.start() == 0)
                .mapToDouble(Point::weight)
                .sum();
        // A worn start is left out where it is sure to have less than a tenth.
        assertTrue(known.isNew() == 1 ? isNew > 0.9 : Math.abs(isNew - known.isNew()) < 0.01, isNew + " " + known);
        near(quantiles(points, 0, (p, x) -> p.pace()), known.pace(), 0.004);
        for (double expected : new double[] {0.0005, 0.1, 0.3, 0.9}) {
            near(
                    quantiles(points, expected, (p, x) -> p.start() + x * p.pace()),
                    known.percent(Expected.dry(expected)),
                    0.004);
            for (double limit : new double[] {0.2, 0.5, 1.0}) {
                assertEquals(
                        points.stream()
                                .filter(p -> p.start() + expected * p.pace() <= limit)
                                .mapToDouble(Point::weight)
                                .sum(),
                        known.atMost(limit, Expected.dry(expected)),
                        0.02,
                        limit + " % at " + expected);
            }
            assertEquals(
                    points.stream()
                            .mapToDouble(p -> p.weight() * Math.cos(p.start() + expected * p.pace()))
                            .sum(),
                    known.mean(Expected.dry(expected), 0, (e, bias) -> Math.cos(e)),
                    known.isNew() == 1 ? 0.003 + 1 - isNew : 0.003);
        }
        near(quantiles(points, 1.0, (p, x) -> Math.max(0, (x - p.start()) / p.pace())), beyond(known, 1.0), 0.01);
    }

    /** What the table would expect of all rides when the limit is reached. */
    private static Estimate beyond(Elongation known, double limit) {
        return known.ridable(limit, Expected.NONE, Expected.dry(1));
    }

    private static void near(Estimate exact, Estimate found, double least) {
        double slack = Math.max(least, (exact.high() - exact.low()) / 20);
        String both = exact + " against " + found;
        assertEquals(exact.low(), found.low(), slack, both);
        assertEquals(exact.likely(), found.likely(), slack, both);
        assertEquals(exact.high(), found.high(), slack, both);
    }

    /** Before the first ride only the start counts. */
    @Test
    void atNoExposureAChainIsWhereItStarted() {
        Elongation known = Wears.model(prior(0.05), Map.of("Amber", List.of(length(0.001, 0.4))))
                .of("Amber");
        // A slip of eight errors on a new chain is not out of the question either.
        List<Point> points = points(0.05, List.of(length(0.001, 0.4)));
        for (double percent : new double[] {0, 0.2, 0.6}) {
            assertEquals(
                    points.stream()
                            .filter(p -> p.start() <= percent)
                            .mapToDouble(Point::weight)
                            .sum(),
                    known.atMost(percent, Expected.NONE),
                    0.02);
        }
        // The starts are steps here, a point of the lattice each.
        assertEquals(0.5, known.atMost(known.percent(Expected.NONE).likely(), Expected.NONE), 0.03);
        assertEquals(0, beyond(known, 0.2).likely(), 1e-6);
    }

    /** What a doubt says, of a length and of an edge: how rare such a reading is by all the others. */
    @Test
    void aDoubtIsAsRareAsItSays() {
        List<ReadingSeen> others = List.of(length(0.1, 0.1), length(0.2, 0.2));
        List<Point> points = points(0.05, others);
        ReadingSeen off = length(0.25, 0.47);
        WearModel.Doubt doubt = only(others, off);
        double as = points.stream()
                .mapToDouble(p -> p.weight()
                        * UNIT.survivalProbability((0.47 - p.start() - 0.25 * p.pace())
                                / off.reading().errorPercent()))
                .sum();
        assertEquals(2 * as, doubt.chance(), 0.2 * 2 * as);
        near(quantiles(points, 0.25, (p, x) -> p.start() + x * p.pace()), doubt.expected(), 0.004);
        ReadingSeen edge = edge(0.25, 0.5, true);
        double drops = points.stream()
                .mapToDouble(p -> p.weight() * UNIT.cumulativeProbability((p.start() + 0.25 * p.pace() - 0.5) / 0.05))
                .sum();
        assertEquals(drops, only(others, edge).chance(), 0.2 * drops);
    }

    private static WearModel.Doubt only(List<ReadingSeen> others, ReadingSeen off) {
        List<ReadingSeen> all = new ArrayList<>(others);
        all.add(off);
        List<WearModel.Doubt> doubts =
                Wears.model(prior(0.05), Map.of("Amber", all)).doubts("Amber");
        assertEquals(List.of(off), doubts.stream().map(WearModel.Doubt::seen).toList());
        assertTrue(doubts.get(0).chance() < 0.005);
        return doubts.get(0);
    }

    /**
     * What two chains teach about a third: the rider's pace on a grid, each chain around it, and where a chain may have
     * run before, every start.
     */
    @ParameterizedTest
    @ValueSource(doubles = {0, 0.05, 0.4})
    void othersTeachByTheSharedPace(double worn) {
        List<ReadingSeen> one = List.of(length(0.2, 0.3));
        // By itself this one is in doubt: fast, or worn before.
        List<ReadingSeen> two = List.of(length(0.05, 0.22), length(0.3, 0.5), edge(0.3, 0.75, false));
        WearModel model = Wears.model(prior(worn), Map.of("Amber", one, "Moss", two, "Ochre", List.of()));
        assertEquals(2, model.chainsRead());
        List<Point> third = new ArrayList<>();
        for (double m = -5 * SHARED; m <= 5 * SHARED; m += SHARED / 10) {
            double weight =
                    NormalDistribution.of(0, SHARED).density(m) * marginal(one, m, worn) * marginal(two, m, worn);
            for (double z = -5; z <= 5; z += 0.05) {
                third.add(new Point(0, Math.exp(m + OWN * z), weight * UNIT.density(z)));
            }
        }
        double all = third.stream().mapToDouble(Point::weight).sum();
        List<Point> points = third.stream()
                .map(p -> new Point(0, p.pace(), p.weight() / all))
                .toList();
        near(quantiles(points, 0, (p, x) -> p.pace()), model.of("Ochre").pace(), 0.004);
    }

    private static double marginal(List<ReadingSeen> seen, double m, double worn) {
        double step = 0.02;
        double sum = 0;
        for (int i = -1; i < (worn == 0 ? 0 : (int) (1.2 / step)); i++) {
            double start = i < 0 ? 0 : (i + 0.5) * step;
            double prior = i < 0 ? 1 - worn : worn * step * startDensity(start);
            for (double z = -6; z <= 6; z += 0.05) {
                double weight = prior * UNIT.density(z);
                for (ReadingSeen s : seen) {
                    weight *= likelihood(s.reading(), start + Math.exp(m + OWN * z) * s.expectedPercent());
                }
                sum += weight;
            }
        }
        return sum;
    }
}
