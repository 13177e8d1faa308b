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

    /** The likely life, metres of dry clean road; NaN for a product that has none to lose. */
    default double likelyMetres(Event.ProductDescribed product) {
        Estimate life = of(product);
        return life == null ? Double.NaN : life.likely();
    }

    /** By the table's life of the product's method. */
    static Lives table(Factors factors) {
        return product -> factors.lifeMetres(product.method());
    }
}
