package chainage.plan;

import chainage.cost.Dose;
import chainage.cost.Stock;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.standing.Standing;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Something to buy. */
public sealed interface Purchase {
    /** When it should be there; null when no date can be given. */
    @Nullable
    Instant by();

    /**
     * A chain in place of one that nears its limit.
     *
     * @param worn the chain to be replaced
     */
    record Chain(Standing worn, @Nullable Instant by) implements Purchase {}

    /**
     * A package of a product.
     *
     * @param supply what is left
     */
    record Refill(Supply supply, @Nullable Instant by) implements Purchase {}

    /**
     * A product, how much of it is left, and how long that lasts.
     *
     * @param dose what a treatment takes
     * @param treatmentsLeft that what is left suffices for
     * @param treatmentsPerDay by the treatments of the last year, or since the first purchase
     * @param runsOut as things go; null without treatments to go by
     */
    record Supply(
            Event.ProductDescribed product,
            Stock stock,
            Dose dose,
            double treatmentsLeft,
            double treatmentsPerDay,
            @Nullable Instant runsOut) {
        private static final Duration YEAR = Duration.ofDays(365);
        /** Fewer days say too little of a habit, and count as so many; our choice. */
        private static final double FEWEST_DAYS = 28;

        /** Null without recorded amounts. */
        static @Nullable Supply of(Ledger ledger, Event.ProductDescribed product, Instant at) {
            Stock stock = Stock.of(ledger, product);
            Dose dose = Dose.of(ledger, product);
            double left = stock.millilitres() / dose.millilitres();
            if (Double.isNaN(left)) {
                return null;
            }
            Instant bought = ledger.purchases(product.product()).get(0).at();
            Instant since = bought.isAfter(at.minus(YEAR)) ? bought : at.minus(YEAR);
            long treatments = ledger.treatmentsWith(product.product()).stream()
                    .filter(t -> !t.at().isBefore(since))
                    .count();
            double days = Math.max(FEWEST_DAYS, Duration.between(since, at).toHours() / 24.0);
            double perDay = treatments / days;
            return new Supply(
                    product,
                    stock,
                    dose,
                    left,
                    perDay,
                    treatments == 0
                            ? null
                            : at.plus(Duration.ofHours(Math.round(24 * Math.min(left / perDay, 36_500)))));
        }
    }

    /** A chain that reaches its limit early, by the cautious end of its dates; null when it does not. */
    static @Nullable Purchase chain(Standing s, Instant at, Instant until) {
        if (s.wear().used() >= 1) {
            return new Chain(s, at);
        }
        return s.replaceOn() == null || s.replaceOn().low().isAfter(until)
                ? null
                : new Chain(s, s.replaceOn().low());
    }

    /**
     * A package of what runs out.
     *
     * @param needed when its treatments are planned, by time
     * @return null when it lasts
     */
    static @Nullable Purchase product(Supply supply, List<Instant> needed, Instant at, Instant until) {
        int enough = (int) Math.min(1e6, supply.treatmentsLeft());
        Instant by = needed.size() > enough ? needed.get(enough) : null;
        Instant out = supply.runsOut();
        if (enough == 0) {
            by = at;
        } else if (out != null && !out.isAfter(until) && (by == null || out.isBefore(by))) {
            by = out;
        }
        return by == null ? null : new Refill(supply, by);
    }
}
