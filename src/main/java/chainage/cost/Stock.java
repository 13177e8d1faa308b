package chainage.cost;

import chainage.ledger.Event;
import chainage.ledger.Ledger;
import java.time.Instant;
import java.util.List;

/**
 * What is left of a product, by the packages bought and the amounts that treatments took since the first of them.
 *
 * @param millilitres left, 0 when more was taken than bought; NaN without a recorded purchase, the content of a package,
 *     or any word on what treatments take
 * @param boughtMillilitres bought in all; NaN as above
 * @param treatments since the first purchase
 * @param unnoted how many of them noted no amount, and count with the mean of the others
 */
public record Stock(double millilitres, double boughtMillilitres, int treatments, int unnoted) {
    private static final Stock UNKNOWN = new Stock(Double.NaN, Double.NaN, 0, 0);

    public static Stock of(Ledger ledger, Event.ProductDescribed product) {
        List<Event.Bought> bought = ledger.purchases(product.product());
        Double content = product.packageMillilitres();
        if (bought.isEmpty() || content == null) {
            return UNKNOWN;
        }
        Instant first = bought.get(0).at();
        List<Event.Treated> since = ledger.treatmentsWith(product.product()).stream()
                .filter(t -> !t.at().isBefore(first))
                .toList();
        double each = Dose.of(ledger, product).millilitres();
        double all = content * bought.stream().mapToInt(Event.Bought::packages).sum();
        double used = 0;
        int unnoted = 0;
        for (Event.Treated t : since) {
            Double own = t.millilitres() == null ? product.treatmentMillilitres() : t.millilitres();
            used += own == null ? each : own;
            unnoted += own == null ? 1 : 0;
        }
        return Double.isNaN(used) ? UNKNOWN : new Stock(Math.max(0, all - used), all, since.size(), unnoted);
    }
}
