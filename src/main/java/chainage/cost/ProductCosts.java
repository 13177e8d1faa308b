package chainage.cost;

import chainage.friction.Effort;
import chainage.friction.Friction;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.quantity.Estimate;
import chainage.quantity.Money;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * Products compared over one period of rides.
 *
 * @param period whose rides are replayed
 * @param cleaning before every treatment; null for each product's own
 * @param effort in place of the rides' own; null for their own
 * @param currency of every price
 * @param anHour what an hour of the rider's time is worth; null for nothing
 */
public record ProductCosts(
        CostPeriod period,
        @Nullable Cleaning cleaning,
        @Nullable Effort effort,
        String currency,
        @Nullable Money anHour) {
    private Friction friction() {
        return new Friction(period.factors());
    }

    /** The period's mean loss in the usual state that savings are measured against: wet lube at half its life, quick clean. */
    public Watts usual() {
        double mu = friction().mu(Method.WET_LUBE, Cleaning.QUICK, 0.5);
        return effort == null ? ridden().at(mu) : Watts.at(mu, friction(), effort);
    }

    /** The period's mean loss on the treatments that the rider noted. */
    public Watts ridden() {
        return Watts.of(period.ridden(), friction(), effort);
    }

    /** The period's mean loss with a product, renewed at its likely life. */
    public Watts loss(Event.ProductDescribed product) {
        return Watts.of(replay(product, false).losses(), friction(), effort);
    }

    /** The period with a product, renewed at its likely life or at its cautious one. */
    public Replay replay(Event.ProductDescribed product, boolean cautious) {
        Dose dose = Dose.of(period.ledger(), product);
        Estimate life = period.lives().of(product);
        double limit = life == null ? Double.POSITIVE_INFINITY : cautious ? life.low() : life.likely();
        return Replay.of(period, product, dose, cleaning == null ? dose.cleaning() : cleaning, limit);
    }

    /** Products ranked, the cheapest watt first, whatever order they come in. */
    public List<CostedProduct> rank(List<Event.ProductDescribed> products, Watts baseline) {
        return rank(products, baseline, p -> Optional.empty());
    }

    /**
     * Products ranked, the cheapest watt first, whatever order they come in.
     *
     * @param measured of a product, the share of the power that the baseline loses more, where that was measured: 80 %; it
     *     takes the model's place where it is firmer
     */
    public List<CostedProduct> rank(
            List<Event.ProductDescribed> products,
            Watts baseline,
            Function<Event.ProductDescribed, Optional<Estimate>> measured) {
        return products.stream()
                .map(p -> costed(p, baseline, measured.apply(p).orElse(null)))
                .sorted(CostedProduct.CHEAPEST_FIRST)
                .toList();
    }

    private CostedProduct costed(Event.ProductDescribed product, Watts baseline, @Nullable Estimate share) {
        Replay likely = replay(product, false);
        Watts loss = Watts.of(likely.losses(), friction(), effort);
        Estimate measured = share == null
                ? null
                : new Estimate(share.low() * loss.of(), share.likely() * loss.of(), share.high() * loss.of());
        Usage year = likely.usage().times(period.aYear());
        return new CostedProduct(
                likely,
                replay(product, true),
                loss,
                baseline.watts() - loss.watts(),
                measured != null && measured.high() - measured.low() < 2 * loss.band() ? measured : null,
                year,
                bill(year, product),
                bill(likely.usage().times(1e6 / period.metres()), product));
    }

    private Bill bill(Usage usage, Event.ProductDescribed product) {
        return Bill.of(usage, product, period.ledger(), period.factors(), currency, anHour);
    }
}
