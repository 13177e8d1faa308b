package chainage.meter;

import chainage.exposure.Factors;
import chainage.inference.JointLevels;
import chainage.inference.JointLevels.Expected;
import chainage.inference.JointLevels.Field;
import chainage.inference.JointLevels.Group;
import chainage.inference.JointLevels.Place;
import chainage.inference.JointLevels.Told;
import chainage.inference.NamedKinds;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.meter.MeasuredLoss.Known;
import chainage.meter.MeasuredLoss.Start;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * What other riders' rides with two power meters have shown together: riders as a third level above products and rides
 * ({@link JointLevels}). How riders differ is learnt; one who fits nobody weighs little.
 */
public final class OtherLoss {
    /** How products differ, part of what the table leaves open of one. */
    private static final double PRODUCTS = MeasuredLoss.OWN / RiderLoss.LEVEL;

    /** None. */
    public static final OtherLoss NONE =
            new OtherLoss(List.of(), Map.of(), new Told(new double[0], new double[0], new double[0][0]), List.of());

    private final List<RiderLoss> riders;
    private final SortedMap<Method, List<String>> kinds;
    private final Told told;
    private final List<Double> weights;

    /**
     * What was weighed before.
     *
     * @param kinds names of the products that are told apart, by method
     * @param weights of the riders, in their order
     */
    public OtherLoss(List<RiderLoss> riders, Map<Method, List<String>> kinds, Told told, List<Double> weights) {
        this.riders = List.copyOf(riders);
        this.kinds = new TreeMap<>(kinds);
        this.told = told;
        this.weights = List.copyOf(weights);
    }

    /**
     * Weighs what riders' meters have shown.
     *
     * @param riders in an order that follows from what they have shown; a product without a name is another one with each
     * @param asked this rider's products, under the names that the riders' products bear
     * @param factors the table, with this rider's own values
     */
    public static OtherLoss of(List<RiderLoss> riders, Iterable<Event.ProductDescribed> asked, Factors factors) {
        Map<Method, List<String>> kinds = kinds(riders, asked);
        if (kinds.isEmpty()) {
            return new OtherLoss(
                    riders, kinds, NONE.told, riders.stream().map(r -> 1.0).toList());
        }
        List<Group> groups = riders.stream()
                .map(r -> new Group(
                        r.products().stream()
                                .flatMap(p -> places(kinds, p.method(), p.name()))
                                .toList(),
                        r.said()))
                .toList();
        double spread = factors.value("riders.spread.loss");
        // Riders differ in what is a product's own; the common level is the model's, and the same for all.
        JointLevels all = new JointLevels(
                fields(kinds),
                PRODUCTS,
                groups,
                new double[] {spread * PRODUCTS, spread},
                factors.value("riders.known"));
        List<Double> weights = new ArrayList<>();
        for (int r = 0; r < riders.size(); r++) {
            weights.add(all.weight(r));
        }
        return new OtherLoss(riders, kinds, all.told(), weights);
    }

    /** The products that are told apart, of each method that somebody has. */
    private static Map<Method, List<String>> kinds(List<RiderLoss> riders, Iterable<Event.ProductDescribed> asked) {
        Map<Method, Set<String>> names = Event.ProductDescribed.names(asked);
        Map<Method, List<String>> had = new TreeMap<>();
        riders.stream()
                .flatMap(r -> r.products().stream())
                .forEach(p ->
                        had.computeIfAbsent(p.method(), m -> new ArrayList<>()).add(p.name()));
        Map<Method, List<String>> kinds = new TreeMap<>();
        had.forEach((method, of) -> kinds.put(method, NamedKinds.apart(of, names.getOrDefault(method, Set.of()))));
        return kinds;
    }

    /** The level of all products, which goes by one spread of riders, and their rise method by method by another. */
    private static List<Field> fields(Map<Method, List<String>> kinds) {
        return Stream.concat(
                        Stream.of(new Field(
                                kinds.values().stream().mapToInt(List::size).sum(), 0)),
                        kinds.values().stream().map(names -> new Field(names.size(), 1)))
                .toList();
    }

    /** Of a product's level and of its rise. */
    private static Stream<Place> places(Map<Method, List<String>> kinds, @Nullable Method method, String name) {
        int field = 1;
        int before = 0;
        for (Map.Entry<Method, List<String>> of : kinds.entrySet()) {
            if (of.getKey() == method) {
                int kind = of.getValue().indexOf(name);
                return Stream.of(new Place(0, kind < 0 ? -1 : before + kind), new Place(field, kind));
            }
            field++;
            before += of.getValue().size();
        }
        return Stream.of(new Place(0, -1), Place.UNSEEN);
    }

    /**
     * From where this rider's products start.
     *
     * @param method of a product; null for one that is not known
     */
    public Start start(Function<String, @Nullable Method> method) {
        return products -> {
            List<Place> places = new ArrayList<>(List.of(Place.middle(0)));
            products.forEach(
                    p -> places.addAll(places(kinds, method.apply(p), p).toList()));
            Expected expected = JointLevels.expected(told, fields(kinds), PRODUCTS, places);
            int n = places.size();
            double[] means = new double[n];
            double[][] covariance = new double[n][n];
            for (int i = 0; i < n; i++) {
                boolean level = i % 2 == 1;
                means[i] = (level ? 0 : 1) + unit(i) * (expected.means()[i] - (level ? expected.means()[0] : 0));
                for (int j = 0; j < n; j++) {
                    // A product's own is what its level is beyond the common one.
                    double of = expected.covariance()[i][j]
                            - (level ? expected.covariance()[0][j] : 0)
                            - (j % 2 == 1 ? expected.covariance()[i][0] : 0)
                            + (level && j % 2 == 1 ? expected.covariance()[0][0] : 0);
                    covariance[i][j] = unit(i) * unit(j) * of;
                }
            }
            return new Known(means, covariance);
        };
    }

    /** Of the common level, then of levels and rises in turns. */
    private static double unit(int place) {
        return place == 0 ? RiderLoss.LEVEL : RiderLoss.unit(place - 1);
    }

    /** True when nobody has measured anything. */
    public boolean isEmpty() {
        return kinds.isEmpty();
    }

    /** How many of all that are weighed have measured something, and on how many rides. */
    public Shown shown() {
        return shown(p -> true);
    }

    /** The same of one product. */
    public Shown shown(Event.ProductDescribed product) {
        return shown(p -> p.method() == product.method() && p.name().equals(product.product()));
    }

    /** Whether one of the riders has measured something on both of two products. */
    public boolean hasBoth(Event.ProductDescribed a, Event.ProductDescribed b) {
        return riders.stream()
                .anyMatch(r -> Stream.of(a, b)
                        .allMatch(of -> r.products().stream()
                                .anyMatch(p ->
                                        p.method() == of.method() && p.name().equals(of.product()) && p.rides() > 0)));
    }

    private Shown shown(Predicate<RiderLoss.Product> which) {
        return riders.stream()
                .map(r -> r.products().stream()
                        .filter(which)
                        .mapToInt(RiderLoss.Product::rides)
                        .sum())
                .filter(rides -> rides > 0)
                .map(rides -> new Shown(1, rides))
                .reduce(Shown.NOTHING, Shown::plus);
    }

    /** So many riders, and so many rides of theirs with two power meters. */
    public record Shown(int riders, int rides) {
        static final Shown NOTHING = new Shown(0, 0);

        private Shown plus(Shown more) {
            return new Shown(riders + more.riders, rides + more.rides);
        }
    }

    /** What each shows alone, in the order in which they were weighed. */
    public List<RiderLoss> riders() {
        return riders;
    }

    /** How much a rider weighs against one like the others, by the place in the list that was weighed. */
    public double weight(int rider) {
        return weights.get(rider);
    }

    /** Names of the products that are told apart, by method. */
    public SortedMap<Method, List<String>> kinds() {
        return kinds;
    }

    /** What all together say. */
    public Told told() {
        return told;
    }
}
