package chainage.analysis;

import chainage.cost.CostPeriod;
import chainage.cost.CostedProduct;
import chainage.cost.Currencies;
import chainage.cost.PricedThing;
import chainage.cost.ProductCosts;
import chainage.cost.Watts;
import chainage.exposure.CountedRide;
import chainage.friction.Effort;
import chainage.friction.RideLoss;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.quantity.Estimate;
import chainage.quantity.Money;
import chainage.wear.WearStanding;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import org.jspecify.annotations.Nullable;

/**
 * What products would have cost on a period's rides.
 *
 * @param comparison by which they are compared
 * @param baseline what savings are measured against
 * @param loss of the baseline; NaN without a ride
 * @param ranked the products, the cheapest watt first; empty without a ride
 * @param powered rides that tell their power
 * @param withoutChain rides of the period that no chain has
 * @param priced whether anything has a price
 */
public record Costs(
        ProductCosts comparison,
        Baseline baseline,
        Watts loss,
        List<CostedProduct> ranked,
        int powered,
        int withoutChain,
        boolean priced) {
    private static final Duration YEAR = Duration.ofDays(365);

    public Costs {
        ranked = List.copyOf(ranked);
    }

    /** What savings are measured against. */
    public sealed interface Baseline {}

    /** Wet oil at half its life after a quick clean. */
    public record Usual() implements Baseline {}

    /** What the rider did. */
    public record Ridden() implements Baseline {}

    /** Another product in its place. */
    public record InPlace(Event.ProductDescribed product) implements Baseline {}

    /**
     * A period of the rider's rides.
     *
     * @param from before {@code end}; null for a year before it, or since the first ride where that is later
     */
    public static CostPeriod period(Analysis analysis, @Nullable Instant from, Instant end) {
        Instant start = from;
        if (start == null) {
            Instant earliest = end.minus(YEAR);
            start = analysis.exposures().counted().values().stream()
                    .map(CountedRide::start)
                    .findFirst()
                    .filter(first -> first.isAfter(earliest) && first.isBefore(end))
                    .orElse(earliest);
        }
        return new CostPeriod(
                analysis.ledger(),
                analysis.exposures(),
                analysis.factors(),
                start,
                end,
                analysis.lives(),
                c -> WearStanding.limit(c, analysis.factors()));
    }

    /**
     * Compares products.
     *
     * @param products whose prices, those of what they were ridden on, and the hour are of one currency at most, see
     *     {@link Currencies}
     * @param cleaning before every treatment; null for each product's own
     * @param effort in place of the rides' own; null for theirs, or the reference rider's where none of them tells it
     * @param anHour what an hour of the rider's time is worth; null for nothing
     */
    public static Costs of(
            Analysis analysis,
            CostPeriod period,
            List<Event.ProductDescribed> products,
            Baseline baseline,
            @Nullable Cleaning cleaning,
            @Nullable Effort effort,
            @Nullable Money anHour) {
        SortedMap<String, List<PricedThing>> currencies = Currencies.of(period, products, anHour);
        int powered = (int) period.ridden().stream().filter(RideLoss::counted).count();
        ProductCosts comparison = new ProductCosts(
                period,
                cleaning,
                effort == null && powered == 0 ? Effort.of(analysis.factors().reference()) : effort,
                currencies.isEmpty() ? "EUR" : currencies.firstKey(),
                anHour);
        boolean ridden = period.rides() > 0;
        Watts loss = ridden ? loss(comparison, baseline) : new Watts(Double.NaN, Double.NaN, Double.NaN);
        return new Costs(
                comparison,
                baseline,
                loss,
                ridden ? comparison.rank(products, loss, p -> measured(analysis, baseline, p)) : List.of(),
                powered,
                (int) analysis.exposures().unattributed().stream()
                        .map(r -> r.filed().ride().start())
                        .filter(t -> !t.isBefore(period.from()) && t.isBefore(period.to()))
                        .count(),
                !currencies.isEmpty());
    }

    /** What rides with two power meters say against another product in its place; nothing against anything else. */
    private static Optional<Estimate> measured(Analysis analysis, Baseline baseline, Event.ProductDescribed product) {
        return baseline instanceof InPlace other && !other.product().equals(product)
                ? MeasuredComparison.more(analysis, other.product(), product)
                : Optional.empty();
    }

    private static Watts loss(ProductCosts comparison, Baseline baseline) {
        if (baseline instanceof InPlace other) {
            return comparison.loss(other.product());
        }
        return baseline instanceof Ridden ? comparison.ridden() : comparison.usual();
    }

    /** The rides that were replayed. */
    public CostPeriod period() {
        return comparison.period();
    }
}
