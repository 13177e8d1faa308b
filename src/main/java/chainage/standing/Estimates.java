package chainage.standing;

import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.ledger.Ledger;
import chainage.treatment.Life;
import chainage.treatment.LifeModel;
import chainage.wear.WearModel;

/**
 * What all chains together have taught.
 *
 * @param lives how long treatments last
 * @param wear how fast chains wear
 */
public record Estimates(LifeModel lives, WearModel wear) {
    public static Estimates of(Ledger ledger, Exposures exposures, Factors factors) {
        return new Estimates(
                new LifeModel(Life.of(ledger, exposures), factors), WearModel.of(ledger, exposures, factors));
    }
}
