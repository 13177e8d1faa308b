package chainage.standing;

import chainage.attribution.AttributedRide;
import chainage.exposure.ChainExposure;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.ledger.Installation;
import chainage.ledger.Ledger;
import chainage.quantity.Estimate;
import chainage.treatment.TreatmentStanding;
import chainage.wear.WearStanding;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Ranks the chains. */
public final class Standings {
    /** Condemned chains still on a bike, then by share of the nearest limit, ties by name. */
    private static final Comparator<Standing> NEAREST_FIRST = Comparator.comparing(
                    (Standing s) -> s.wear().condemned() == null)
            .thenComparing(s -> -s.used())
            .thenComparing(Standing::chain);

    private Standings() {}

    /**
     * Where every chain in use stands, nearest its limit first. Retired and damaged chains are left out once they are off
     * the bike.
     *
     * @param estimates what all chains have taught
     * @param at now
     */
    public static List<Standing> of(
            Ledger ledger,
            List<AttributedRide> rides,
            Exposures exposures,
            Estimates estimates,
            Factors factors,
            Instant at) {
        List<Standing> standings = new ArrayList<>();
        for (ChainExposure chain : exposures.chains().values()) {
            String name = chain.chain().chain();
            Installation installation = ledger.installationOf(name, at).orElse(null);
            if (installation == null && ledger.condemned(name).isPresent()) {
                continue;
            }
            TreatmentStanding treatment = TreatmentStanding.of(ledger, chain, estimates.lives(), factors);
            WearStanding wear = WearStanding.of(ledger, chain, estimates.wear(), factors);
            Pace pace = installation == null
                    ? null
                    : Pace.of(installation.bike(), chain.product().method(), rides, exposures, factors, at);
            standings.add(new Standing(
                    chain,
                    installation,
                    treatment,
                    wear,
                    pace == null ? null : Dates.of(at, treatment.leftMetres(), pace.treatmentMetresPerDay()),
                    pace == null ? null : Dates.of(at, limit(treatment), pace.treatmentMetresPerDay()),
                    pace == null ? null : Dates.of(at, wear.leftMetres(), pace.metresPerDay())));
        }
        standings.sort(NEAREST_FIRST);
        return List.copyOf(standings);
    }

    /** What is left to where a treatment is due, which is no guess once the risk is chosen. */
    private static Estimate limit(TreatmentStanding treatment) {
        return new Estimate(treatment.dueInMetres(), treatment.dueInMetres(), treatment.dueInMetres());
    }
}
