package chainage.standing;

import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.ledger.Ledger;
import chainage.treatment.LifeModel;
import chainage.wear.Paces;
import chainage.wear.WearModel;

/**
 * What all chains together have taught.
 *
 * @param lives how long treatments last
 * @param wear how fast chains wear
 */
public record Estimates(LifeModel lives, WearModel wear) {
    /**
     * Joins both.
     *
     * @param exposures with treatments that last as the lives say
     * @param paces from where wear starts
     */
    public static Estimates of(LifeModel lives, Ledger ledger, Exposures exposures, Factors factors, Paces paces) {
        return new Estimates(lives, WearModel.of(ledger, exposures, factors, paces));
    }
}
