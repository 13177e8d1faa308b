package chainage.cost;

import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.quantity.Money;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * What a usage costs, each part worked out exactly and rounded once; the total is the sum of the parts as they stand.
 *
 * @param product null where its price, its package or what a treatment takes is not known
 * @param time zero where no hour has a price; null where one has and the minutes are not known
 * @param chain the chains' wear
 * @param sprockets the wear of cassettes and rings that goes with it
 * @param unpriced what is left out for want of a price
 */
public record Bill(
        @Nullable Money product, @Nullable Money time, Money chain, Money sprockets, List<PricedThing> unpriced) {
    public Bill {
        unpriced = List.copyOf(unpriced);
    }

    /**
     * Prices a usage.
     *
     * @param currency of every price; see {@link Currencies}
     * @param anHour what an hour of the rider's time is worth; null for nothing
     * @throws ArithmeticException when a sum is more than can be held
     */
    public static Bill of(
            Usage usage,
            Event.ProductDescribed product,
            Ledger ledger,
            Factors factors,
            String currency,
            @Nullable Money anHour) {
        List<PricedThing> unpriced = new ArrayList<>();
        Money chain = Money.zero(currency);
        for (Map.Entry<String, Double> e : usage.chains().entrySet()) {
            Event.ChainDescribed c = ledger.chains().get(e.getKey());
            Money price = c == null ? null : c.price();
            if (price == null) {
                unpriced.add(new PricedThing(PricedThing.Kind.CHAIN, e.getKey()));
            } else {
                chain = chain.plus(price.times(new BigDecimal(e.getValue())));
            }
        }
        Money sprockets = Money.zero(currency);
        for (Map.Entry<String, Double> e : usage.bikes().entrySet()) {
            Event.BikeDescribed b = ledger.bikes().get(e.getKey());
            sprockets = sprockets
                    .plus(part(
                            b,
                            e,
                            PricedThing.Kind.CASSETTE,
                            Event.BikeDescribed::cassettePrice,
                            factors,
                            currency,
                            unpriced))
                    .plus(part(
                            b,
                            e,
                            PricedThing.Kind.RINGS,
                            Event.BikeDescribed::ringsPrice,
                            factors,
                            currency,
                            unpriced));
        }
        return new Bill(product(usage, product), time(usage, currency, anHour), chain, sprockets, unpriced);
    }

    /** A bike's sprockets of one sort: so many chains use up one set of them. */
    private static Money part(
            Event.@Nullable BikeDescribed bike,
            Map.Entry<String, Double> used,
            PricedThing.Kind sort,
            Function<Event.BikeDescribed, @Nullable Money> priceOf,
            Factors factors,
            String currency,
            List<PricedThing> unpriced) {
        Money price = bike == null ? null : priceOf.apply(bike);
        if (price == null) {
            unpriced.add(new PricedThing(sort, used.getKey()));
            return Money.zero(currency);
        }
        double chains = factors.value(sort == PricedThing.Kind.RINGS ? "cost.rings.chains" : "cost.cassette.chains");
        return price.times(new BigDecimal(used.getValue()).divide(new BigDecimal(chains), MathContext.DECIMAL128));
    }

    private static @Nullable Money product(Usage usage, Event.ProductDescribed product) {
        Money price = product.price();
        Double content = product.packageMillilitres();
        if (usage.treatments() == 0) {
            return price == null ? null : Money.zero(price.currency());
        }
        if (price == null || content == null || Double.isNaN(usage.millilitres())) {
            return null;
        }
        return price.times(new BigDecimal(usage.millilitres()).divide(new BigDecimal(content), MathContext.DECIMAL128));
    }

    private static @Nullable Money time(Usage usage, String currency, @Nullable Money anHour) {
        if (anHour == null || usage.treatments() == 0) {
            return Money.zero(currency);
        }
        return Double.isNaN(usage.minutes())
                ? null
                : anHour.times(new BigDecimal(usage.minutes()).divide(BigDecimal.valueOf(60), MathContext.DECIMAL128));
    }

    /** Product and time, which are what a treatment costs; null where either is not known. */
    public @Nullable Money treating() {
        return product == null || time == null ? null : product.plus(time);
    }

    /** All parts together; null where treating is not known. */
    public @Nullable Money total() {
        Money treating = treating();
        return treating == null ? null : treating.plus(chain).plus(sprockets);
    }

    /**
     * What each watt saved costs.
     *
     * @throws IllegalArgumentException when nothing is saved
     */
    public static Money perWatt(Money cost, double watts) {
        if (!(watts > 0)) {
            throw new IllegalArgumentException("nothing is saved: " + watts + " W");
        }
        return cost.times(BigDecimal.ONE.divide(new BigDecimal(watts), MathContext.DECIMAL128));
    }
}
