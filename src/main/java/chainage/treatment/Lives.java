package chainage.treatment;

import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.quantity.Estimate;
import org.jspecify.annotations.Nullable;

/** How long a treatment with a product lasts. */
@FunctionalInterface
public interface Lives {
    /** Metres of dry clean road: cautious, likely, hopeful; null for a product that has no life to lose. */
    @Nullable
    Estimate of(Event.ProductDescribed product);

    /** By the table's life of the product's method. */
    static Lives table(Factors factors) {
        return product -> factors.lifeMetres(product.method());
    }
}
