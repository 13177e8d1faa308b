package chainage.treatment;

import chainage.exposure.ChainExposure;
import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import chainage.quantity.Estimate;
import chainage.quantity.Lazy;
import java.time.Instant;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * How much of a chain's treatment is used up.
 *
 * @param known what is known of its product's life; null for an untreated chain
 * @param basis what that rests on; null for an untreated chain
 * @param lifeMetres metres of dry clean road that the treatment lasts: cautious, likely, hopeful; null for an untreated
 *     chain
 * @param limitMetres at which it counts as used up, by the risk that the rider takes; 0 for an untreated chain
 * @param riddenMetres since it
 * @param exposureMetres metres of dry clean road ridden since it, as weighted
 * @param noisy when the rider first heard the chain since; null when not
 */
public record TreatmentStanding(
        @Nullable Lazy<ProductLife> known,
        @Nullable Lazy<Basis> basis,
        @Nullable Estimate lifeMetres,
        double limitMetres,
        double riddenMetres,
        double exposureMetres,
        @Nullable Instant noisy) {
    /** The factor that says at which chance of being over a treatment is due. */
    public static final String RISK = "due.risk";

    /**
     * What is known of a product's life in three figures.
     *
     * @param lives how many were seen of it
     * @param tableWeight what the table still weighs in it, 0 to 1
     * @param othersWeight what other riders' chains weigh in it, 0 to 1
     */
    public record Basis(int lives, double tableWeight, double othersWeight) {
        static Basis of(ProductLife product) {
            return new Basis(product.lives().size(), product.tableWeight(), product.othersWeight());
        }
    }

    /** What is known of its product's life; null for an untreated chain. */
    public @Nullable ProductLife product() {
        return known == null ? null : known.get();
    }

    /** Where a chain's treatment stands. */
    public static TreatmentStanding of(Ledger ledger, ChainExposure chain, LifeModel lives, Factors factors) {
        Optional<Instant> noisy =
                ledger.noiseSinceTreatment(chain.chain().chain()).map(Event.Remarked::at);
        if (chain.product().method() == Method.NONE) {
            return new TreatmentStanding(
                    null, null, null, 0, chain.metresSinceTreatment(), chain.treatmentMetres(), noisy.orElse(null));
        }
        ProductLife product = lives.of(chain.product(), chain.chain().chain());
        double risk = Math.min(0.99, factors.value(RISK));
        return new TreatmentStanding(
                Lazy.known(product),
                new Lazy<>(() -> Basis.of(product)),
                product.life(),
                product.single(risk),
                chain.metresSinceTreatment(),
                chain.treatmentMetres(),
                noisy.orElse(null));
    }

    /** Share of the limit that is used; 1 and more is due. A noisy or untreated chain is due whatever it ran. */
    public double used() {
        double share = lifeMetres == null ? 1 : exposureMetres / limitMetres;
        return noisy == null ? share : Math.max(1, share);
    }

    /** Share of the likely life that is used: how worn the treatment is, rather than when to renew it. */
    public double usedOfLikely() {
        double share = lifeMetres == null ? 1 : exposureMetres / lifeMetres.likely();
        return noisy == null ? share : Math.max(1, share);
    }

    /** Metres of dry clean road to the limit; negative when past it, 0 at most for a chain that is due anyway. */
    public double dueInMetres() {
        return lifeMetres == null
                ? 0
                : Math.min(noisy == null ? Double.POSITIVE_INFINITY : 0, limitMetres - exposureMetres);
    }

    /** Metres of dry clean road left, by cautious, likely and hopeful life; negative when past it. */
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
