package chainage.treatment;

import chainage.exposure.ChainExposure;
import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.quantity.Estimate;
import java.time.Instant;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * How much of a chain's treatment is used up.
 *
 * @param lifeMetres metres of dry clean road that the treatment lasts; null for an untreated chain
 * @param exposureMetres metres of dry clean road ridden since it, as weighted
 * @param noisy when the rider first heard the chain since; null when not
 */
public record TreatmentStanding(
        @Nullable Estimate lifeMetres,
        double exposureMetres,
        @Nullable Instant noisy) {

    /** Where a chain's treatment stands, by the table's life of its method. */
    public static TreatmentStanding of(Ledger ledger, ChainExposure chain, Factors factors) {
        Optional<Instant> noisy =
                ledger.noiseSinceTreatment(chain.chain().chain()).map(Event.Remarked::at);
        return new TreatmentStanding(
                factors.lifeMetres(chain.product().method()), chain.treatmentMetres(), noisy.orElse(null));
    }

    /** Share of the likely life that is used; 1 and more is due. A noisy or untreated chain is due whatever it ran. */
    public double used() {
        double share = lifeMetres == null ? 1 : exposureMetres / lifeMetres.likely();
        return noisy == null ? share : Math.max(1, share);
    }

    /** Metres of dry clean road left, by low, likely and high life; negative when past it. */
    public Estimate leftMetres() {
        if (lifeMetres == null) {
            return new Estimate(0, 0, 0);
        }
        double cap = noisy == null ? Double.POSITIVE_INFINITY : 0;
        return new Estimate(
                Math.min(cap, lifeMetres.low() - exposureMetres),
                Math.min(cap, lifeMetres.likely() - exposureMetres),
                Math.min(cap, lifeMetres.high() - exposureMetres));
    }
}
