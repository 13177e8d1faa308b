package chainage.treatment;

import chainage.exposure.Factors;
import chainage.inference.NamedKinds;
import chainage.inference.Score;
import chainage.inference.ThreeLevel;
import chainage.inference.ThreeLevel.Field;
import chainage.inference.ThreeLevel.Told;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.quantity.Estimate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/**
 * What other riders' chains have shown together: riders as a third level above products and lives ({@link ThreeLevel}). How
 * riders differ is learnt; one who fits nobody weighs little.
 */
public final class OtherRiders {
    /** None. */
    public static final OtherRiders NONE = new OtherRiders(List.of(), Taught.NOTHING, new double[0]);

    /** The fields: lives by method go by one spread, each of the scores by its own. */
    private static final int SPREADS = 1 + LifeUnknowns.COUNT;

    private final List<RiderLives> riders;
    private final Taught taught;
    private final double[] weights;

    private OtherRiders(List<RiderLives> riders, Taught taught, double[] weights) {
        this.riders = List.copyOf(riders);
        this.taught = taught;
        this.weights = weights;
    }

    /**
     * What was weighed before.
     *
     * @param weights of the riders, in their order
     */
    public static OtherRiders weighed(List<RiderLives> riders, Taught taught, List<Double> weights) {
        return new OtherRiders(
                riders,
                taught,
                weights.stream().mapToDouble(Double::doubleValue).toArray());
    }

    /**
     * Weighs what riders have shown.
     *
     * @param riders a product without a name is another one with each; in an order that follows from what they have shown; the same riders give the same
     * @param asked this rider's products, under the names that the riders' lives bear
     * @param factors the table, with this rider's own values
     */
    public static OtherRiders of(List<RiderLives> riders, Iterable<Event.ProductDescribed> asked, Factors factors) {
        if (riders.isEmpty()) {
            return NONE;
        }
        LifePrior prior = LifePrior.of(factors);
        double alike = factors.value("riders.alike");
        Map<Method, Set<String>> names = Event.ProductDescribed.names(asked);
        Map<Method, List<NamedKinds.Said>> said = new TreeMap<>();
        for (int r = 0; r < riders.size(); r++) {
            for (RiderLives.Product p : riders.get(r).products()) {
                said.computeIfAbsent(p.method(), m -> new ArrayList<>())
                        .add(new NamedKinds.Said(r, p.name(), p.level()));
            }
        }
        Map<Method, NamedKinds> kinds = new TreeMap<>();
        said.forEach((method, of) -> kinds.put(
                method,
                NamedKinds.of(
                        of,
                        names.getOrDefault(method, Set.of()),
                        prior.own(shape(method, factors, prior)).sd(),
                        alike,
                        0)));
        List<Field> fields =
                new ArrayList<>(kinds.values().stream().map(NamedKinds::field).toList());
        int methods = fields.size();
        for (int d = 0; d < LifeUnknowns.COUNT; d++) {
            int score = d;
            fields.add(NamedKinds.alone(
                    riders.stream().map(r -> r.scores().get(score)).toList(), 1 + d));
        }
        ThreeLevel all = new ThreeLevel(
                riders.size(),
                SPREADS,
                fields,
                new ThreeLevel.Expected(factors.value("riders.spread"), factors.value("riders.known")));
        Map<Method, Taught.Levels> levels = new HashMap<>();
        int field = 0;
        for (Map.Entry<Method, NamedKinds> k : kinds.entrySet()) {
            Told middle = all.middle(field);
            Map<String, Level> products = new HashMap<>();
            List<String> told = k.getValue().names();
            for (int p = 0; p < told.size(); p++) {
                products.put(told.get(p), level(all.kind(field, p), middle));
            }
            levels.put(k.getKey(), new Taught.Levels(level(middle, middle), products));
            field++;
        }
        List<Score> scores = new ArrayList<>();
        for (int d = 0; d < LifeUnknowns.COUNT; d++) {
            Told t = all.middle(methods + d);
            scores.add(new Score(t.mean(), Math.sqrt(t.variance())));
        }
        double[] weights = new double[riders.size()];
        for (int r = 0; r < weights.length; r++) {
            weights[r] = all.weight(r);
        }
        return new OtherRiders(riders, new Taught(scores, levels), weights);
    }

    private static LifeShape shape(Method method, Factors factors, LifePrior prior) {
        Estimate table = Objects.requireNonNull(factors.lifeMetres(method));
        return new LifeShape(table, prior.wider());
    }

    /** What two products of a method share is taken to be what each shares with the method's middle. */
    private static Level level(Told told, Told middle) {
        double loading = told.withMiddle() / Math.sqrt(middle.withMiddle());
        double own = Math.sqrt(Math.max(1e-4, told.variance() - loading * loading));
        return new Level(told.mean(), loading, Own.alike(own), Math.hypot(loading, own), Math.min(1, told.unseen()));
    }

    /** From where this rider's treatments start. */
    public Taught taught() {
        return taught;
    }

    /** What each shows alone, in the order in which they were weighed. */
    public List<RiderLives> riders() {
        return riders;
    }

    /** How many riders there are. */
    public int count() {
        return riders.size();
    }

    /**
     * How much a rider weighs against one like the others.
     *
     * @param rider place in the list that was weighed
     */
    public double weight(int rider) {
        return weights[rider];
    }

    /**
     * What riders have shown of a product, under the name that their lives bear.
     *
     * @param riders who have used it
     */
    public record Shown(int riders, int lives) {}

    /** What riders have shown of a product. */
    public Shown shown(Event.ProductDescribed product) {
        return shown(p -> isOf(p, product));
    }

    /**
     * What one rider has shown of a product.
     *
     * @param metres the typical life, dry clean road, as the table and the rider's treatments alone have it
     */
    public record Single(double metres, int lives) {}

    /**
     * Riders who have shown something of a product, the shortest life first.
     *
     * @param factors as they were weighed by
     */
    public List<Single> each(Event.ProductDescribed product, Factors factors) {
        if (product.method() == Method.NONE) {
            return List.of();
        }
        return riders.stream()
                .flatMap(r -> r.products().stream())
                .filter(p -> isOf(p, product) && p.level().precision() > 0)
                .map(p -> new Single(metres(p, factors), p.lives()))
                .sorted(Comparator.comparingDouble(Single::metres).thenComparingInt(Single::lives))
                .toList();
    }

    /** Levels of two methods are not of one measure; lives are. */
    private static double metres(RiderLives.Product product, Factors factors) {
        LifeShape shape = shape(product.method(), factors, LifePrior.of(factors));
        return Math.exp(shape.logLife(product.level().withTable()));
    }

    /** What riders have shown of all that is of the product's method. */
    public Shown shown(Method method) {
        return shown(p -> p.method() == method);
    }

    private Shown shown(Predicate<RiderLives.Product> of) {
        List<Integer> lives = riders.stream()
                .map(r -> r.products().stream()
                        .filter(of)
                        .mapToInt(RiderLives.Product::lives)
                        .sum())
                .filter(n -> n > 0)
                .toList();
        return new Shown(
                lives.size(), lives.stream().mapToInt(Integer::intValue).sum());
    }

    /**
     * What riders have shown of two products.
     *
     * @param riders who have used either
     * @param lives of both
     * @param both riders who have used both
     * @param longer of these, the ones with whom the first lasted longer
     */
    public record Compared(int riders, int lives, int both, int longer) {}

    /**
     * What riders have shown of two products, under the names that their lives bear.
     *
     * @param factors as they were weighed by
     */
    public Compared compared(Event.ProductDescribed a, Event.ProductDescribed b, Factors factors) {
        int any = 0;
        int lives = 0;
        int both = 0;
        int longer = 0;
        for (RiderLives r : riders) {
            RiderLives.@Nullable Product first = of(r, a);
            RiderLives.@Nullable Product second = of(r, b);
            any += first != null || second != null ? 1 : 0;
            lives += (first == null ? 0 : first.lives()) + (second == null ? 0 : second.lives());
            if (first != null && second != null) {
                both++;
                longer += metres(first, factors) > metres(second, factors) ? 1 : 0;
            }
        }
        return new Compared(any, lives, both, longer);
    }

    private static RiderLives.@Nullable Product of(RiderLives rider, Event.ProductDescribed product) {
        return rider.products().stream()
                .filter(p -> isOf(p, product))
                .findFirst()
                .orElse(null);
    }

    private static boolean isOf(RiderLives.Product seen, Event.ProductDescribed product) {
        return seen.method() == product.method() && seen.name().equals(product.product());
    }
}
