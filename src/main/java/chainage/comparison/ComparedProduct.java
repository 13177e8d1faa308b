package chainage.comparison;

import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.treatment.LifeModel;
import chainage.treatment.ProductLife;
import chainage.wear.ProductWear;
import chainage.wear.WearModel;

/**
 * A product and what is known of it.
 *
 * @param life how long its treatments last
 * @param wear how fast chains wear under it
 */
public record ComparedProduct(ProductLife life, ProductWear wear) {
    /**
     * What is known of a product.
     *
     * @param product never of the method none
     */
    public static ComparedProduct of(Event.ProductDescribed product, LifeModel lives, WearModel wear, Factors factors) {
        return new ComparedProduct(lives.of(product), wear.of(product, factors.wearRate(product.method()) * 1e6));
    }

    public String product() {
        return life.product().product();
    }

    /** Whether this rider's own treatments or chains say anything of it in one respect. */
    public boolean seen(PairComparison.Aspect aspect) {
        return aspect == PairComparison.Aspect.LIFE ? !life.lives().isEmpty() : wear.chains() > 0;
    }
}
