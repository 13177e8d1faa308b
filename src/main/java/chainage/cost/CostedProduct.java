package chainage.cost;

import chainage.quantity.Estimate;
import chainage.quantity.Money;
import java.util.Comparator;
import org.jspecify.annotations.Nullable;

/**
 * A product in the comparison.
 *
 * @param likely the period replayed with it, renewed at its likely life
 * @param cautious the same, renewed at its cautious life
 * @param loss mean over the rides
 * @param modelled saved against the baseline by the friction model, watts; negative when it loses more
 * @param measured the same as rides with two power meters have it, 80 %; null unless that is firmer than the model
 * @param usageOfYear of a year of 365 days like the period
 * @param year its price
 * @param thousand of 1000 km
 */
public record CostedProduct(
        Replay likely,
        Replay cautious,
        Watts loss,
        double modelled,
        @Nullable Estimate measured,
        Usage usageOfYear,
        Bill year,
        Bill thousand) {
    /** Cheapest watt first; what saves nothing, or has no price, behind by what a year costs; ties by name. */
    public static final Comparator<CostedProduct> CHEAPEST_FIRST = Comparator.comparing(
                    (CostedProduct c) -> c.perWatt(), Comparator.nullsLast(Comparator.comparing(Money::minor)))
            .thenComparing(
                    (CostedProduct c) -> c.year().total(), Comparator.nullsLast(Comparator.comparing(Money::minor)))
            .thenComparing(CostedProduct::name);

    public String name() {
        return likely.product().product();
    }

    /** Against the baseline, watts; negative when it loses more. */
    public double saved() {
        return measured == null ? modelled : measured.likely();
    }

    public double savedLow() {
        return measured == null ? modelled - loss.band() : measured.low();
    }

    public double savedHigh() {
        return measured == null ? modelled + loss.band() : measured.high();
    }

    /** Cost of treating for a year by each watt saved; null when nothing is saved or the cost is not known. */
    public @Nullable Money perWatt() {
        return perWatt(saved());
    }

    /** At the friendly end of the band. */
    public @Nullable Money perWattLow() {
        return perWatt(savedHigh());
    }

    /** At the unfriendly end; null when nothing would be saved there. */
    public @Nullable Money perWattHigh() {
        return perWatt(savedLow());
    }

    private @Nullable Money perWatt(double watts) {
        Money cost = year.treating();
        return cost == null || !(watts > 0) ? null : Bill.perWatt(cost, watts);
    }
}
