package chainage.cost;

import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * What one treatment with a product takes, as the rider does it.
 *
 * @param millilitres mean amount, above 0; NaN when neither noted nor entered
 * @param minutes mean time; NaN when neither noted nor entered
 * @param cleaning the commonest before it, of equally common ones the more thorough; quick where there was no treatment
 * @param treatments how many it rests on; 0 when it is only what was entered for the product
 */
public record Dose(double millilitres, double minutes, Cleaning cleaning, int treatments) {
    /** What the treatments noted so far took; one that notes nothing counts with what was entered for the product. */
    public static Dose of(Ledger ledger, Event.ProductDescribed product) {
        List<Event.Treated> noted = ledger.treatmentsWith(product.product());
        Map<Cleaning, Integer> cleanings = new EnumMap<>(Cleaning.class);
        noted.forEach(t -> cleanings.merge(ledger.cleaning(t), 1, Integer::sum));
        Cleaning cleaning = cleanings.entrySet().stream()
                .max(Comparator.comparing((Map.Entry<Cleaning, Integer> e) -> e.getValue())
                        .thenComparing(Map.Entry::getKey))
                .map(Map.Entry::getKey)
                .orElse(Cleaning.QUICK);
        return new Dose(
                mean(noted, Event.Treated::millilitres, product.treatmentMillilitres()),
                mean(noted, Event.Treated::minutes, product.treatmentMinutes()),
                cleaning,
                noted.size());
    }

    private static double mean(
            List<Event.Treated> noted, Function<Event.Treated, @Nullable Double> figure, @Nullable Double entered) {
        double sum = 0;
        int n = 0;
        for (Event.Treated t : noted) {
            Double own = figure.apply(t);
            Double v = own == null ? entered : own;
            if (v != null) {
                sum += v;
                n++;
            }
        }
        return n > 0 ? sum / n : entered == null ? Double.NaN : entered;
    }
}
