package chainage.wear;

import static chainage.wear.Wears.length;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.ledger.Reading;
import chainage.quantity.Estimate;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import org.apache.commons.statistics.distribution.TDistribution;
import org.junit.jupiter.api.Test;

/**
 * The whole model against a long reference computation: 600,000 sets of all unknowns drawn from the prior, each weighed
 * by the readings of all chains. What is left of them after weighing makes its own error a thirtieth of an interval.
 */
class WearReferenceTest {
    private static final int DRAWS = 600_000;
    private static final TDistribution STUDENT = TDistribution.of(4);

    private static ReadingSeen ruler(Expected x, double percent) {
        return Wears.seen(x, new Reading.Elongation(percent, Reading.Tool.RULER, 24));
    }

    private static Map<String, ChainWear> chains() {
        Map<String, ChainWear> chains = new LinkedHashMap<>();
        Expected dry = new Expected(0.1, 0.02, 0.03, 0);
        Expected winter = new Expected(0.15, 0.08, 0.1, 0.04);
        chains.put(
                "Amber",
                chain(winter, "Kettle Block", ruler(Expected.NONE, 0.06), ruler(dry, 0.2), ruler(winter, 0.62)));
        chains.put(
                "Moss",
                chain(new Expected(0.3, 0.02, 0, 0), "Marsh Oil", length(0.1, 0.16), Wears.edge(0.3, 0.5, false)));
        chains.put("Ochre", chain(new Expected(0.15, 0.1, 0.1, 0.05), "Kettle Block"));
        return chains;
    }

    private static ChainWear chain(Expected total, String product, ReadingSeen... seen) {
        return new ChainWear(false, total, Map.of(product, 1.0), Arrays.asList(seen));
    }

    /** Elongations and paces, chain by chain, and how much speaks for them. */
    private static final class Draw {
        private final double[] values;
        private final double weight;

        Draw(double[] values, double weight) {
            this.values = values;
            this.weight = weight;
        }

        double[] values() {
            return values;
        }

        double weight() {
            return weight;
        }
    }

    @Test
    void theModelOfManyUnknownsIsBayesRule() {
        Map<String, ChainWear> chains = chains();
        WearModel.Prior p = new WearModel.Prior(0.35, 0.5, 0.3, 0.5, 0.05, 0, 0.35, true);
        Random random = new Random(20261127);
        Draw[] draws = new Draw[DRAWS];
        for (int i = 0; i < DRAWS; i++) {
            double m = p.shared() * random.nextGaussian();
            double wetter = Math.exp(p.road() * random.nextGaussian());
            double grittier = Math.exp(p.road() * random.nextGaussian());
            double[] bias = new double[3];
            Arrays.setAll(bias, t -> p.bias() * random.nextGaussian());
            Map<String, Double> products = Map.of(
                    "Kettle Block",
                    p.product() * random.nextGaussian(),
                    "Marsh Oil",
                    p.product() * random.nextGaussian());
            double[] values = new double[2 * chains.size() + 2];
            double log = 0;
            int c = 0;
            for (ChainWear chain : chains.values()) {
                double u = m
                        + Objects.requireNonNull(products.get(
                                chain.products().keySet().iterator().next()))
                        + p.own() * random.nextGaussian();
                for (ReadingSeen s : chain.readings()) {
                    double e = Math.exp(u) * s.expected().percent(wetter, grittier);
                    if (s.reading() instanceof Reading.Elongation l) {
                        double z = (l.percent() - e - bias[l.tool() == Reading.Tool.RULER ? 0 : 1]) / l.errorPercent();
                        log += -2.5 * Math.log1p(z * z / 4); // Student's density of 4 degrees, its peak being 1
                    } else if (s.reading() instanceof Reading.Gauge g) {
                        double z = (g.edgePercent() - e - bias[2]) / g.errorPercent();
                        log += Math.log(g.drops() ? STUDENT.survivalProbability(z) : STUDENT.cumulativeProbability(z));
                    }
                }
                values[c++] = Math.exp(u);
                values[c++] = Math.exp(u) * chain.total().percent(wetter, grittier);
            }
            values[c++] = wetter;
            values[c] = grittier;
            draws[i] = new Draw(values, Math.exp(log));
        }
        WearModel model = new WearModel(p, chains);
        int c = 0;
        double worst = 0;
        for (Map.Entry<String, ChainWear> e : chains.entrySet()) {
            Elongation known = model.of(e.getKey());
            worst = Math.max(worst, off(e.getKey() + " pace", quantiles(draws, c++), known.pace()));
            worst = Math.max(
                    worst,
                    off(
                            e.getKey() + " elongation",
                            quantiles(draws, c++),
                            known.percent(e.getValue().total())));
        }
        worst = Math.max(worst, off("wet", quantiles(draws, c++), model.wetter()));
        worst = Math.max(worst, off("grit", quantiles(draws, c), model.grittier()));
        System.out.printf("wear: worst end of an interval off by %.3f of it%n", worst);
        assertTrue(worst < 0.06, "an end is off by " + worst + " of its interval");
    }

    private static Estimate quantiles(Draw[] draws, int value) {
        Arrays.sort(draws, Comparator.comparingDouble(d -> d.values()[value]));
        double all = Arrays.stream(draws).mapToDouble(Draw::weight).sum();
        double[] at = new double[3];
        double sum = 0;
        for (Draw d : draws) {
            sum += d.weight() / all;
            for (int q = 0; q < 3; q++) {
                at[q] = sum <= new double[] {0.1, 0.5, 0.9}[q] ? d.values()[value] : at[q];
            }
        }
        return new Estimate(at[0], at[1], at[2]);
    }

    private static double off(String what, Estimate exact, Estimate found) {
        double width = exact.high() - exact.low();
        double off = Math.max(
                Math.abs(exact.low() - found.low()),
                Math.max(Math.abs(exact.likely() - found.likely()), Math.abs(exact.high() - found.high())));
        System.out.printf("  %s: %s against %s, off %.3f%n", what, exact, found, off / width);
        return off / width;
    }

    /** Which chain is asked first is of no matter. */
    @Test
    void theOrderOfChainsDoesNotMatter() {
        Map<String, ChainWear> turned = new LinkedHashMap<>();
        List<Map.Entry<String, ChainWear>> all = List.copyOf(chains().entrySet());
        for (int i = all.size() - 1; i >= 0; i--) {
            turned.put(all.get(i).getKey(), all.get(i).getValue());
        }
        assertEquals(
                new WearModel(Wears.USUAL, chains()).of("Ochre").pace(),
                new WearModel(Wears.USUAL, turned).of("Ochre").pace());
    }
}
