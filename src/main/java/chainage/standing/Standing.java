package chainage.standing;

import chainage.exposure.ChainExposure;
import chainage.ledger.Installation;
import chainage.treatment.TreatmentStanding;
import chainage.wear.WearStanding;
import org.jspecify.annotations.Nullable;

/**
 * Where one chain stands.
 *
 * @param exposure what was ridden on it
 * @param installation where it is now; null on the shelf
 * @param treatment what is left of its treatment
 * @param wear what is left of the chain
 * @param usualRideMetres what a usual ride of its bike, on the shelf of the last one, counts for such a treatment, dry
 *     clean road; 0 without recent rides
 * @param usualCounts how often a metre on the usual roads of its bike, on the shelf of the last one, counts for such a
 *     treatment; NaN without recent rides
 * @param freshDays how many days a fresh treatment lasts on its bike until it is due, on the mean of its weeks; NaN on
 *     the shelf, untreated or without recent rides
 * @param treatOn when its treatment ends; null on the shelf or without recent rides
 * @param treatBy when to treat it, by the risk that the rider takes; null as well
 * @param replaceOn when to replace it, by its share of its bike's rides, on the shelf of the last one's; null without
 *     recent rides
 */
public record Standing(
        ChainExposure exposure,
        @Nullable Installation installation,
        TreatmentStanding treatment,
        WearStanding wear,
        double usualRideMetres,
        double usualCounts,
        double freshDays,
        @Nullable Dates treatOn,
        @Nullable Dates treatBy,
        @Nullable Dates replaceOn) {

    /** The limit that a chain meets first. */
    public enum Limit {
        TREATMENT,
        REPLACEMENT
    }

    public String chain() {
        return exposure.chain().chain();
    }

    /** The bike it is on; null on the shelf. */
    public @Nullable String bike() {
        return installation == null ? null : installation.bike();
    }

    /**
     * The limit of which the larger share is used; of two equal ones the treatment, which is sooner mended. A worn chain is
     * replaced, never treated.
     */
    public Limit nearest() {
        return wear.used() >= 1 || wear.used() > treatment.used() ? Limit.REPLACEMENT : Limit.TREATMENT;
    }

    /**
     * How far it can be ridden on its bike's usual roads until its treatment is due, metres; of dry, clean road where no
     * roads are usual. Negative past it: so much has been too far.
     */
    public double leftMetres() {
        double left = treatment.dueInMetres();
        return hasUsualRoads() ? left / usualCounts : left;
    }

    /** Whether its bike, on the shelf its last one, was ridden lately. */
    public boolean hasUsualRoads() {
        return !Double.isNaN(usualCounts);
    }

    /** Share used of the nearest limit; 1 and more is due. */
    public double used() {
        return Math.max(treatment.used(), wear.used());
    }

    public boolean due() {
        return used() >= 1;
    }

    /**
     * Whether it is in time still, and would not be after a usual ride: rides are long against a treatment's life, so
     * that who is told only afterwards is told too late. A treatment that nothing was ridden on is not spoken of.
     */
    public boolean dueBeforeNextRide() {
        return installation != null && treatment.used() < 1 && isShortOfARide();
    }

    /** Whether a chain on the shelf wants its treatment before it goes on: it is due, or would be after a usual ride. */
    public boolean dueBeforeUse() {
        return installation == null && wear.used() < 1 && (treatment.used() >= 1 || isShortOfARide());
    }

    private boolean isShortOfARide() {
        return treatment.exposureMetres() > 0 && usualRideMetres > 0 && usualRideMetres >= treatment.dueInMetres();
    }
}
