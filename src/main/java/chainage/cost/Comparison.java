package chainage.cost;

import chainage.friction.Effort;
import chainage.friction.Friction;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.quantity.Estimate;
import chainage.quantity.Money;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Products compared over one season.
 *
 * @param season whose rides are replayed
 * @param cleaning before every treatment; null for each product's own
 * @param effort in place of the rides' own; null for their own
 * @param currency of every price
 * @param anHour what an hour of the rider's time is worth; null for nothing
 */
public record Comparison(
        Season season,
        @Nullable Cleaning cleaning,
        @Nullable Effort effort,
        String currency,
        @Nullable Money anHour) {
    /** The state that savings are measured against where nothing else is said. */
    public static final String USUAL = "wet oil at half its life, quick clean";

    private Friction friction() {
        return new Friction(season.factors());
    }

    /** The season's mean loss in the usual state that savings are measured against, {@link #USUAL}. */
    public Watts usual() {
        double mu = friction().mu(Method.WET_OIL, Cleaning.QUICK, 0.5);
        return effort == null ? ridden().at(mu) : Watts.at(mu, friction(), effort);
    }

    /** The season's mean loss on the treatments that the rider noted. */
    public Watts ridden() {
        return Watts.of(season.ridden(), friction(), effort);
    }

    /** The season's mean loss with a product, renewed at its likely life. */
    public Watts loss(Event.ProductDescribed product) {
        return Watts.of(replay(product, false).losses(), friction(), effort);
    }

    /** The season with a product, renewed at its likely life or at its cautious one. */
    public Replay replay(Event.ProductDescribed product, boolean cautious) {
        Dose dose = Dose.of(season.ledger(), product);
        Estimate life = season.lives().of(product);
        double limit = life == null ? Double.POSITIVE_INFINITY : cautious ? life.low() : life.likely();
        return Replay.of(season, product, dose, cleaning == null ? dose.cleaning() : cleaning, limit);
    }

    /** Products ranked, the cheapest watt first, whatever order they come in. */
    public List<Candidate> rank(List<Event.ProductDescribed> products, Watts baseline) {
        return products.stream()
                .map(p -> candidate(p, baseline))
                .sorted(Candidate.CHEAPEST_FIRST)
                .toList();
    }

    private Candidate candidate(Event.ProductDescribed product, Watts baseline) {
        Replay likely = replay(product, false);
        Watts loss = Watts.of(likely.losses(), friction(), effort);
        Usage year = likely.usage().times(season.aYear());
        return new Candidate(
                likely,
                replay(product, true),
                loss,
                baseline.watts() - loss.watts(),
                year,
                bill(year, product),
                bill(likely.usage().times(1e6 / season.metres()), product));
    }

    private Bill bill(Usage usage, Event.ProductDescribed product) {
        return Bill.of(usage, product, season.ledger(), season.factors(), currency, anHour);
    }
}
