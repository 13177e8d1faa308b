package chainage.treatment;

import chainage.exposure.Factors;
import chainage.inference.Witness;
import chainage.ledger.Method;
import chainage.quantity.Estimate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;

/**
 * What one other rider's lives alone say, in a few numbers: of each unknown and of each product's level a mean and how
 * precisely that is told. They are what a rider by the table would learn from these lives, with the table taken out of it
 * again, as if all were bells.
 *
 * @param scores of how wet roads count, of how dirty ones do, and of the spread of single lives
 * @param products by method and name
 */
public record RiderLives(List<Witness> scores, List<Product> products) {
    /**
     * A product with this rider.
     *
     * @param lives how many were seen
     */
    public record Product(Method method, String name, Witness level, int lives) {}

    public RiderLives {
        scores = List.copyOf(scores);
        products = List.copyOf(products);
    }

    /**
     * Of a rider's lives, those of treatments in force among them.
     *
     * @param factors by which they are counted, with the values of the rider who asks
     */
    public static RiderLives of(List<Life> lives, Factors factors) {
        LifePrior prior = LifePrior.of(factors);
        Map<Method, Map<String, List<Life>>> by = new TreeMap<>();
        for (Life l : lives) {
            by.computeIfAbsent(l.product().method(), m -> new LinkedHashMap<>())
                    .computeIfAbsent(l.product().product(), p -> new ArrayList<>())
                    .add(l);
        }
        List<Product> names = new ArrayList<>();
        List<LifeShape> shapes = new ArrayList<>();
        List<Level> levels = new ArrayList<>();
        List<LifeFamily> families = new ArrayList<>();
        by.forEach((method, products) -> {
            Estimate table = Objects.requireNonNull(factors.lifeMetres(method));
            LifeShape shape = new LifeShape(table, prior.wider());
            Level before = Level.table(prior.own(shape));
            new TreeMap<>(products).forEach((name, of) -> {
                names.add(new Product(method, name, Witness.NONE, of.size()));
                shapes.add(shape);
                levels.add(before);
                families.add(new LifeFamily(
                        shape, List.of(before), List.of(new SeenLives(of, Math.log(table.likely()), prior))));
            });
        });
        LifePosterior posterior = new LifePosterior(prior, families, !families.isEmpty());
        List<Product> told = new ArrayList<>();
        for (int i = 0; i < names.size(); i++) {
            Product p = names.get(i);
            told.add(new Product(p.method(), p.name(), level(posterior, i, shapes.get(i), levels.get(i)), p.lives()));
        }
        return new RiderLives(scores(posterior, prior), told);
    }

    private static Witness level(LifePosterior posterior, int family, LifeShape shape, Level before) {
        double all = 0;
        double sum = 0;
        double squares = 0;
        for (LifePosterior.Point p : posterior.points()) {
            double[] at = p.families().get(family).logLife().get(0);
            double[] weights = p.families().get(family).weights().get(0);
            double[] scale = p.scale().get(family);
            for (int k = 0; k < at.length; k++) {
                double weight = 0;
                for (int e = 0; e < scale.length; e++) {
                    weight += weights[e * at.length + k] * scale[e];
                }
                double z = shape.level(at[k]);
                all += weight;
                sum += weight * z;
                squares += weight * z * z;
            }
        }
        double mean = sum / all;
        return Witness.of(mean, squares / all - mean * mean, before.sd() * before.sd());
    }

    private static List<Witness> scores(LifePosterior posterior, LifePrior prior) {
        double[] sum = new double[LifeUnknowns.COUNT];
        double[] squares = new double[LifeUnknowns.COUNT];
        for (LifePosterior.Point p : posterior.points()) {
            double[] x = {
                Math.log(p.unknowns().leaning().wet()) / prior.leaning(),
                Math.log(p.unknowns().leaning().grit()) / prior.leaning(),
                Math.log(p.unknowns().single() / prior.single()) / prior.singleDoubt()
            };
            for (int d = 0; d < x.length; d++) {
                sum[d] += p.weight() * x[d];
                squares[d] += p.weight() * x[d] * x[d];
            }
        }
        List<Witness> told = new ArrayList<>();
        for (int d = 0; d < sum.length; d++) {
            told.add(Witness.of(sum[d], Math.max(1e-6, squares[d] - sum[d] * sum[d]), 1));
        }
        return told;
    }
}
