package chainage.plan;

import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import chainage.standing.Dates;
import chainage.standing.Standing;
import java.time.Duration;
import java.time.Instant;
import java.util.Comparator;
import org.jspecify.annotations.Nullable;

/**
 * A chain's next treatment.
 *
 * @param chain its name
 * @param bike it is on; null on the shelf
 * @param product to put on: what is on it, or after the factory's preservative and on a bare chain the rider's latest
 * @param used share of its limit used so far, by the risk that the rider takes
 * @param from when enough is used to make it worthwhile
 * @param cautious when it should be done at the latest, by the risk that the rider takes; null for a chain on the shelf, which no ride uses up, and for one
 *     without a date
 * @param likely when it is due as things go; null as above
 * @param everyDays how many days apart those after it would be, as its bike is ridden; NaN where it has no date, or none
 *     with that product
 * @param heard when the rider heard that its treatment is worn off; null when not
 */
public record PlannedTreatment(
        String chain,
        @Nullable String bike,
        Event.ProductDescribed product,
        double used,
        Instant from,
        @Nullable Instant cautious,
        @Nullable Instant likely,
        double everyDays,
        @Nullable Instant heard) {
    /** The soonest to be late first; those without a date last; ties by name. */
    static final Comparator<PlannedTreatment> SOONEST_FIRST = Comparator.comparing(
                    PlannedTreatment::cautious, Comparator.nullsLast(Comparator.naturalOrder()))
            .thenComparing(Comparator.comparingDouble(PlannedTreatment::used).reversed())
            .thenComparing(PlannedTreatment::chain);

    /**
     * The next treatment of a chain; null when it needs none that could be dated, or is to be replaced.
     *
     * @param worthwhile share of the life from which a treatment is worth renewing, below 1
     */
    static @Nullable PlannedTreatment of(Ledger ledger, Standing s, Instant at, double worthwhile) {
        if (s.wear().used() >= 1) {
            return null;
        }
        double used = s.treatment().used();
        Dates ends = s.treatOn();
        boolean late = s.bike() != null && used >= 1;
        Instant cautious = late
                ? at
                : s.bike() == null || s.treatBy() == null ? null : s.treatBy().likely();
        if (cautious == null && used < worthwhile) {
            return null;
        }
        // By the risk that the rider takes it may be due while it is likely to last.
        Instant likely = cautious == null ? null : ends != null ? later(cautious, ends.likely()) : late ? at : null;
        Instant from = at;
        if (used < worthwhile && cautious != null) {
            double share = (worthwhile - used) / (1 - used);
            from = at.plus(
                    Duration.ofSeconds(Math.round(Duration.between(at, cautious).toSeconds() * share)));
        }
        Event.ProductDescribed product = product(ledger, s);
        return new PlannedTreatment(
                s.chain(),
                s.bike(),
                product,
                used,
                from,
                cautious,
                likely,
                product.equals(s.exposure().product()) ? s.freshDays() : Double.NaN,
                s.treatment().noisy());
    }

    private static Instant later(Instant a, Instant b) {
        return a.isAfter(b) ? a : b;
    }

    private static Event.ProductDescribed product(Ledger ledger, Standing s) {
        Event.ProductDescribed on = s.exposure().product();
        if (on.method() != Method.FACTORY && on.method() != Method.NONE) {
            return on;
        }
        return ledger.chains().keySet().stream()
                .flatMap(c -> ledger.treatments(c).stream())
                .filter(t -> ledger.product(t.product())
                        .filter(p -> p.method() != Method.FACTORY && p.method() != Method.NONE)
                        .isPresent())
                .max(Comparator.comparing(Event.Treated::at).thenComparing(Event.Treated::product))
                .flatMap(t -> ledger.product(t.product()))
                .orElse(on);
    }

    /** True for what chains are dipped into, several in one go. */
    boolean immersed() {
        return product.method() == Method.HOT_WAX || product.method() == Method.COLD_DIP_WAX;
    }
}
