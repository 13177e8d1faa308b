package chainage.cost;

import chainage.ledger.Event;
import chainage.quantity.Money;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/** Which currencies the prices of a comparison are in: they are added up, so there must be one. */
public final class Currencies {
    private Currencies() {}

    /** What is priced in each currency, by its code; empty when nothing is priced. */
    public static SortedMap<String, List<PricedThing>> of(
            CostPeriod period, List<Event.ProductDescribed> products, @Nullable Money anHour) {
        SortedMap<String, List<PricedThing>> found = new TreeMap<>();
        products.forEach(p -> note(found, p.price(), new PricedThing(PricedThing.Kind.PRODUCT, p.product())));
        period.chains().forEach(c -> {
            note(
                    found,
                    c.chain().price(),
                    new PricedThing(PricedThing.Kind.CHAIN, c.chain().chain()));
            c.rides().stream().map(r -> r.ride().bike()).distinct().forEach(name -> {
                Event.BikeDescribed bike =
                        name == null ? null : period.ledger().bikes().get(name);
                if (bike != null) {
                    note(found, bike.cassettePrice(), new PricedThing(PricedThing.Kind.CASSETTE, name));
                    note(found, bike.ringsPrice(), new PricedThing(PricedThing.Kind.RINGS, name));
                }
            });
        });
        note(found, anHour, new PricedThing(PricedThing.Kind.HOUR, ""));
        return found;
    }

    private static void note(SortedMap<String, List<PricedThing>> found, @Nullable Money price, PricedThing what) {
        if (price != null) {
            List<PricedThing> there = found.computeIfAbsent(price.currency(), c -> new ArrayList<>());
            if (!there.contains(what)) {
                there.add(what);
            }
        }
    }
}
