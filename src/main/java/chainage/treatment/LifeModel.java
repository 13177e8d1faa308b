package chainage.treatment;

import chainage.exposure.Factors;
import chainage.inference.Normal;
import chainage.inference.TwoLevel;
import chainage.ledger.Event;
import chainage.ledger.Method;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.DoubleUnaryOperator;

/**
 * How long treatments last with this rider, learnt from remarks and renewals.
 *
 * <p>Each product has a typical life; single lives spread about it, normal in the log. A noise ends a life where it was
 * heard; a treatment renewed or still running in silence would have lasted longer. Before any life is seen a product's
 * typical life is as the table says of its method, and products of one method share part of what they teach: see
 * {@link LifeShape} and {@link TwoLevel}.
 *
 * <p>Not for several threads at once: answers are worked out when first asked for.
 */
public final class LifeModel {
    /** A product's own part of the spread is at most this share of the table's, so that something is left to share. */
    private static final double MOST_OWN = 0.95;

    /** One method: its shape, its products and what they have seen. */
    private record Family(LifeShape shape, TwoLevel level, List<String> products) {}

    private final Factors factors;
    private final double single;
    private final Map<String, List<Life>> lives = new LinkedHashMap<>();
    private final Map<Method, Family> families = new EnumMap<>(Method.class);
    private final Map<String, ProductLife> known = new HashMap<>();

    /**
     * Joins all lives.
     *
     * @param lives in any order
     */
    public LifeModel(List<Life> lives, Factors factors) {
        this.factors = factors;
        this.single = factors.value("life.single");
        Map<Method, List<String>> products = new EnumMap<>(Method.class);
        for (Life life : lives) {
            String product = life.product().product();
            List<Life> seen = this.lives.computeIfAbsent(product, p -> new ArrayList<>());
            if (seen.isEmpty()) {
                products.computeIfAbsent(life.product().method(), m -> new ArrayList<>())
                        .add(product);
            }
            seen.add(life);
        }
        products.forEach((method, names) -> families.put(method, family(method, names)));
    }

    private Family family(Method method, List<String> products) {
        LifeShape shape = new LifeShape(Objects.requireNonNull(factors.lifeMetres(method)));
        double own = Math.min(MOST_OWN, factors.value("life.product") / shape.spread());
        List<DoubleUnaryOperator> likelihoods = new ArrayList<>();
        products.forEach(p -> likelihoods.add(likelihood(shape, lives.getOrDefault(p, List.of()), single)));
        return new Family(shape, new TwoLevel(own, Math.sqrt(1 - own * own), likelihoods), products);
    }

    /** Log likelihood of a level by lives, up to a constant. */
    private static DoubleUnaryOperator likelihood(LifeShape shape, List<Life> lives, double single) {
        double[] over = lives.stream()
                .filter(Life::ended)
                .mapToDouble(l -> Math.log(l.metres()))
                .toArray();
        double[] silent = lives.stream()
                .filter(l -> !l.ended())
                .mapToDouble(l -> Math.log(l.metres()))
                .toArray();
        double mean = Arrays.stream(over).average().orElse(0);
        return z -> {
            double life = shape.logLife(z);
            double off = (life - mean) / single;
            double log = -over.length * off * off / 2;
            for (double x : silent) {
                log += Normal.logProbability((life - x) / single);
            }
            return log;
        };
    }

    /**
     * What is known of a product's life.
     *
     * @throws IllegalArgumentException for the method none, which has no life
     */
    public ProductLife of(Event.ProductDescribed product) {
        if (product.method() == Method.NONE) {
            throw new IllegalArgumentException("an untreated chain has no treatment's life");
        }
        return known.computeIfAbsent(product.product(), name -> {
            Family family = families.get(product.method());
            if (family == null) {
                family = family(product.method(), List.of());
            }
            int place = family.products().indexOf(name);
            return new ProductLife(
                    product,
                    family.shape(),
                    place < 0 ? family.level().another() : family.level().member(place),
                    single,
                    List.copyOf(lives.getOrDefault(name, List.of())),
                    family.products().stream()
                            .filter(p -> !p.equals(name))
                            .mapToInt(p -> lives.getOrDefault(p, List.of()).size())
                            .sum());
        });
    }

    /** Every product that has a life to show, in the order of their first. */
    public List<ProductLife> products() {
        return lives.values().stream().map(l -> of(l.get(0).product())).toList();
    }
}
