package chainage.wear;

import chainage.exposure.Factors;
import chainage.inference.NamedKinds;
import chainage.inference.Score;
import chainage.inference.ThreeLevel;
import chainage.inference.ThreeLevel.Field;
import chainage.inference.ThreeLevel.Told;
import chainage.ledger.Event;
import chainage.ledger.Method;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/**
 * What other riders' readings have shown of wear together: riders as a third level above products and chains
 * ({@link ThreeLevel}). How riders differ is learnt; one who fits nobody weighs little.
 */
public final class OtherWear {
    /** None. */
    public static final OtherWear NONE = new OtherWear(List.of(), Paces.TABLE, List.of());

    /** The fields: paces by method go by one spread, what wet and grit add by one each. */
    private static final int SPREADS = 3;

    private final List<RiderWear> riders;
    private final Paces taught;
    private final List<Double> weights;

    /**
     * What was weighed before.
     *
     * @param weights of the riders, in their order
     */
    public OtherWear(List<RiderWear> riders, Paces taught, List<Double> weights) {
        this.riders = List.copyOf(riders);
        this.taught = taught;
        this.weights = List.copyOf(weights);
    }

    /**
     * Weighs what riders' chains have shown.
     *
     * @param riders in an order that follows from what they have shown; a product without a name is another one with each
     * @param asked this rider's products, under the names that the riders' products bear
     * @param factors the table, with this rider's own values
     */
    public static OtherWear of(List<RiderWear> riders, Iterable<Event.ProductDescribed> asked, Factors factors) {
        WearModel.Prior prior = WearModel.Prior.of(factors);
        if (prior.open() == 0 || riders.stream().allMatch(r -> r.products().isEmpty())) {
            return new OtherWear(
                    riders, Paces.TABLE, riders.stream().map(r -> 1.0).toList());
        }
        Map<Method, Set<String>> names = Event.ProductDescribed.names(asked);
        Map<Method, List<NamedKinds.Said>> said = new TreeMap<>();
        for (int r = 0; r < riders.size(); r++) {
            for (RiderWear.Product p : riders.get(r).products()) {
                said.computeIfAbsent(p.method(), m -> new ArrayList<>())
                        .add(new NamedKinds.Said(r, p.name(), p.pace()));
            }
        }
        double alike = factors.value("riders.alike");
        double own = Math.min(MOST_OWN, prior.product() / prior.open());
        Map<Method, NamedKinds> kinds = new TreeMap<>();
        said.forEach((method, of) ->
                kinds.put(method, NamedKinds.of(of, names.getOrDefault(method, Set.of()), own, alike, 0)));
        List<Field> fields =
                new ArrayList<>(kinds.values().stream().map(NamedKinds::field).toList());
        fields.add(NamedKinds.alone(riders.stream().map(RiderWear::wet).toList(), 1));
        fields.add(NamedKinds.alone(riders.stream().map(RiderWear::grit).toList(), 2));
        ThreeLevel all = new ThreeLevel(
                riders.size(),
                SPREADS,
                fields,
                new ThreeLevel.Expected(factors.value("riders.spread"), factors.value("riders.known")));
        double rider = Math.sqrt(alike * all.groups(0));
        Map<Method, Paces.Levels> levels = new HashMap<>();
        int field = 0;
        for (Map.Entry<Method, NamedKinds> k : kinds.entrySet()) {
            Told middle = all.middle(field);
            Map<String, Paces.Level> products = new HashMap<>();
            for (int p = 0; p < k.getValue().names().size(); p++) {
                products.put(k.getValue().names().get(p), level(all.kind(field, p), middle, rider, prior.open()));
            }
            levels.put(k.getKey(), new Paces.Levels(level(middle, middle, rider, prior.open()), products));
            field++;
        }
        Told wet = all.middle(field);
        Told grit = all.middle(field + 1);
        List<Double> weights = new ArrayList<>();
        for (int r = 0; r < riders.size(); r++) {
            weights.add(all.weight(r));
        }
        return new OtherWear(
                riders,
                new Paces(
                        rider * prior.open(),
                        new Score(wet.mean(), Math.sqrt(wet.variance())),
                        new Score(grit.mean(), Math.sqrt(grit.variance())),
                        levels),
                weights);
    }

    /** Less than the whole, so that something is left to share. */
    private static final double MOST_OWN = 0.95;

    /** What two products of a method share beside the rider is taken to be what each shares with the method's middle. */
    private static Paces.Level level(Told told, Told middle, double rider, double open) {
        double loading = (told.withMiddle() - rider * rider) / Math.sqrt(middle.withMiddle() - rider * rider);
        double own = Math.sqrt(Math.max(1e-4, told.variance() - rider * rider - loading * loading));
        return new Paces.Level(told.mean() * open, loading * open, own * open, Math.min(1, told.unseen()));
    }

    /** From where this rider's chains start. */
    public Paces taught() {
        return taught;
    }

    /** What each shows alone, in the order in which they were weighed. */
    public List<RiderWear> riders() {
        return riders;
    }

    /** How much a rider weighs against one like the others, by the place in the list that was weighed. */
    public double weight(int rider) {
        return weights.get(rider);
    }

    /** How many readings all riders have shown. */
    public int readings() {
        return riders.stream().mapToInt(RiderWear::readings).sum();
    }
}
