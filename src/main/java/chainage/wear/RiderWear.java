package chainage.wear;

import chainage.exposure.Factors;
import chainage.inference.Witness;
import chainage.ledger.Event;
import chainage.ledger.Method;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * What one other rider's readings alone say, in a few numbers: of what wet and grit add to wear, and of how fast chains wear
 * under each product, all against the table and in units of what it leaves open.
 *
 * @param wet of the log of how many times as much wet adds
 * @param grit of grit
 * @param products by method and name
 * @param readings of all chains
 */
public record RiderWear(Witness wet, Witness grit, List<Product> products, int readings) {
    /**
     * A product with this rider.
     *
     * @param pace log of how many times as fast as by the table
     */
    public record Product(Method method, String name, Witness pace) {}

    /** Nothing was read. */
    public static final RiderWear NONE = new RiderWear(Witness.NONE, Witness.NONE, List.of(), 0);

    public RiderWear {
        products = List.copyOf(products);
    }

    /**
     * Of a rider's chains.
     *
     * @param chains each with a reading
     * @param products by the names that are in the chains' shares; what is kept is their own
     */
    public static RiderWear of(List<ChainWear> chains, Map<String, Event.ProductDescribed> products, Factors factors) {
        if (chains.isEmpty()) {
            return NONE;
        }
        WearModel.Prior usual = WearModel.Prior.of(factors);
        WearModel.Prior prior = usual.apart();
        Map<String, ChainWear> named = new LinkedHashMap<>();
        chains.forEach(c -> named.put(String.format(Locale.ROOT, "%06d", named.size()), c));
        WearModel model = new WearModel(prior, named);
        List<Product> paces = new ArrayList<>();
        new TreeMap<>(products).forEach((label, product) -> {
            paces.add(new Product(
                    product.method(),
                    product.product(),
                    Witness.of(
                            model.mean(label) / usual.open(),
                            model.variance(label) / (usual.open() * usual.open()),
                            1)));
        });
        return new RiderWear(
                road(model, WearUnknowns.WET, usual),
                road(model, WearUnknowns.GRIT, usual),
                paces,
                chains.stream().mapToInt(c -> c.readings().size()).sum());
    }

    private static Witness road(WearModel model, int unknown, WearModel.Prior prior) {
        if (prior.road() == 0) {
            return Witness.NONE;
        }
        return Witness.of(
                model.mean(unknown) / prior.road(), model.variance(unknown) / (prior.road() * prior.road()), 1);
    }
}
