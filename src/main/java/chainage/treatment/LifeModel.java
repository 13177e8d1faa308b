package chainage.treatment;

import chainage.exposure.Factors;
import chainage.exposure.Leaning;
import chainage.exposure.Mix;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.quantity.Estimate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * How long treatments last with this rider, learnt from remarks, renewals and what was said at them.
 *
 * <p>Each product has a typical life, about which single lives spread, normal in the log. A noise says that the life ended
 * within the ride before it; a treatment renewed in silence, that it would have lasted longer or that its end went by
 * unremarked. How often that happens with this rider, how wide single lives spread and how wet and dirty roads count is
 * learnt together with the lives ({@link LifePosterior}). Before any life is seen a product's typical life is as the table
 * says of its method, only less surely, and products of one method share part of what they teach ({@link LifeFamily}).
 *
 * <p>Treatments in force teach about other chains' only: what is silent so far must not move its own limit.
 *
 * <p>Not for several threads at once: answers are worked out when first asked for.
 */
public final class LifeModel {
    /** One method: its products and all that was ridden on their closed treatments. */
    private record Family(LifeFamily level, int place, List<String> products, Mix mix) {}

    private final Factors factors;
    private final LifePrior prior;
    private final Taught taught;
    private final Map<String, List<Life>> lives = new LinkedHashMap<>();
    private final Map<Method, Family> families = new EnumMap<>(Method.class);
    private final LifePosterior posterior;
    private final Map<String, ProductLife> known = new HashMap<>();

    /**
     * Joins all lives.
     *
     * @param lives in any order
     * @param factors the table, with the rider's own values, not leaning yet
     */
    public LifeModel(List<Life> lives, Factors factors) {
        this(lives, factors, OtherRiders.NONE);
    }

    /**
     * Joins all lives with what other riders' chains have shown.
     *
     * @param others from whom this rider's products start, in place of the table alone
     */
    public LifeModel(List<Life> lives, Factors factors, OtherRiders others) {
        this.factors = factors;
        this.taught = others.taught();
        this.prior = LifePrior.of(factors).with(taught.scores());
        Map<Method, List<String>> products = new EnumMap<>(Method.class);
        Map<String, List<Life>> closed = new HashMap<>();
        for (Life life : lives) {
            String product = life.product().product();
            List<String> of = products.computeIfAbsent(life.product().method(), m -> new ArrayList<>());
            if (!of.contains(product)) {
                of.add(product);
            }
            if (life.end() != Life.End.RUNNING) {
                closed.computeIfAbsent(product, p -> new ArrayList<>()).add(life);
            }
        }
        List<LifeFamily> levels = new ArrayList<>();
        products.forEach((method, names) -> {
            Family family = family(method, names, closed, levels.size());
            families.put(method, family);
            levels.add(family.level());
        });
        posterior = new LifePosterior(prior, levels, !closed.isEmpty());
        for (Life life : lives) {
            this.lives
                    .computeIfAbsent(life.product().product(), p -> new ArrayList<>())
                    .add(life.counted(posterior.leaning()));
        }
    }

    private Family family(Method method, List<String> products, Map<String, List<Life>> closed, int place) {
        Estimate table = Objects.requireNonNull(factors.lifeMetres(method));
        LifeShape shape = new LifeShape(table, prior.wider());
        List<Level> levels = products.stream()
                .map(p -> taught.level(method, p, prior.own(shape)))
                .toList();
        List<SeenLives> seen = products.stream()
                .map(p -> new SeenLives(closed.getOrDefault(p, List.of()), Math.log(table.likely()), prior))
                .toList();
        Mix mix = seen.stream().map(SeenLives::mix).reduce(Mix.NONE, Mix::plus);
        return new Family(new LifeFamily(shape, levels, seen), place, products, mix);
    }

    /** How wet and dirty roads count with this rider; as in the table until a life is seen. */
    public Leaning leaning() {
        return posterior.leaning();
    }

    /** The chance that an end goes by unremarked with this rider: its mean. */
    public double unremarked() {
        double mean = 0;
        for (LifePosterior.Point p : posterior.points()) {
            for (int e = 0; e < p.chances().length; e++) {
                mean += p.weight() * p.chances()[e] * LifePrior.unremarked(e);
            }
        }
        return mean;
    }

    /**
     * What is known of a product's life.
     *
     * @throws IllegalArgumentException for the method none, which has no life
     */
    public ProductLife of(Event.ProductDescribed product) {
        return known.computeIfAbsent(product.product(), name -> known(product, null));
    }

    /**
     * The same without what the treatment in force on a chain says by being silent so far: what its own limit goes by.
     *
     * @param chain treated with it now
     */
    public ProductLife of(Event.ProductDescribed product, String chain) {
        boolean runs = lives.getOrDefault(product.product(), List.of()).stream().anyMatch(l -> isRunningOn(l, chain));
        return runs ? known(product, chain) : of(product);
    }

    private static boolean isRunningOn(Life life, @Nullable String chain) {
        return life.end() == Life.End.RUNNING && life.chain().equals(chain);
    }

    private ProductLife known(Event.ProductDescribed product, @Nullable String but) {
        if (product.method() == Method.NONE) {
            throw new IllegalArgumentException("an untreated chain has no treatment's life");
        }
        Family family = families.get(product.method());
        boolean alone = family == null;
        if (family == null) {
            family = family(product.method(), List.of(), Map.of(), -1);
        }
        String name = product.product();
        List<Life> own = lives.getOrDefault(name, List.of()).stream()
                .filter(l -> !isRunningOn(l, but))
                .toList();
        List<Life> running =
                own.stream().filter(l -> l.end() == Life.End.RUNNING).toList();
        int member = family.products().indexOf(name);
        LifeShape shape = new LifeShape(Objects.requireNonNull(factors.lifeMetres(product.method())), prior.wider());
        Level before = taught.level(product.method(), name, prior.own(shape));
        LevelGrid grid = new LevelGrid();
        double usual = family.mix().metres(posterior.leaning());
        for (LifePosterior.Point p : posterior.points()) {
            LifeFamily level = family.level();
            double[] logLife;
            double[] weights;
            if (alone) {
                logLife = level.unseenGrid(before);
                weights = level.unseen(before, p.chances(), logLife, true);
                scale(weights, p.weight());
            } else {
                LifeFamily.At at = p.families().get(family.place());
                double[] scale = p.scale().get(family.place());
                logLife = member < 0 ? level.unseenGrid(before) : at.logLife().get(member);
                weights = member < 0
                        ? level.unseen(before, at.others().get(), logLife, false)
                        : at.weights().get(member).clone();
                for (int i = 0; i < weights.length; i++) {
                    weights[i] *= scale[i / logLife.length];
                }
            }
            for (Life life : running) {
                LevelGrid.silent(life, p.unknowns(), logLife, weights);
            }
            double counted =
                    usual > 0 ? Math.log(family.mix().metres(p.unknowns().leaning()) / usual) : 0;
            grid.add(p.unknowns(), logLife, weights, counted);
        }
        return new ProductLife(
                product,
                grid.normalised(),
                own,
                family.products().stream()
                        .filter(p -> !p.equals(name))
                        .mapToInt(p -> lives.getOrDefault(p, List.of()).size())
                        .sum(),
                shape,
                before,
                prior);
    }

    private static void scale(double[] weights, double by) {
        for (int i = 0; i < weights.length; i++) {
            weights[i] *= by;
        }
    }

    /** Every product that has a life to show, in the order of their first. */
    public List<ProductLife> products() {
        return lives.values().stream().map(l -> of(l.get(0).product())).toList();
    }

    @Override
    public String toString() {
        return "leaning " + leaning() + ", unremarked " + unremarked() + " " + Arrays.toString(posterior.unremarked());
    }
}
