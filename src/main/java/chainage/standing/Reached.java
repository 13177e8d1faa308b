package chainage.standing;

import chainage.exposure.ChainExposure;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.exposure.RideExposure;
import chainage.ledger.Installation;
import chainage.ledger.Ledger;
import chainage.treatment.TreatmentStanding;
import chainage.wear.WearStanding;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How far one chain has come: all of its standing but the dates, so nothing that changes while no ride and no fact comes.
 *
 * @param exposure what was ridden on it
 * @param installation where it is now; null on the shelf
 * @param treatment what is left of its treatment
 * @param wear what is left of the chain
 * @param riddenMetres in all
 * @param wearMetres what they were worth in wear: metres of dry clean road at the reference load
 * @param lastBike the bike of its last ride; null when it never had one
 */
public record Reached(
        ChainExposure exposure,
        @Nullable Installation installation,
        TreatmentStanding treatment,
        WearStanding wear,
        double riddenMetres,
        double wearMetres,
        @Nullable String lastBike) {
    /**
     * Every chain in use, in the order of the exposures. Retired and damaged chains are left out once they are off the
     * bike.
     *
     * @param exposures of the rides begun by then
     * @param estimates what all chains have taught
     */
    public static List<Reached> of(
            Ledger ledger, Exposures exposures, Estimates estimates, Factors factors, Instant at) {
        List<Reached> all = new ArrayList<>();
        for (ChainExposure chain : exposures.chains().values()) {
            String name = chain.chain().chain();
            Installation installation = ledger.installationOf(name, at).orElse(null);
            if (installation == null && ledger.outOfService(name).isPresent()) {
                continue;
            }
            List<RideExposure> rides = chain.rides();
            all.add(new Reached(
                    chain,
                    installation,
                    TreatmentStanding.of(ledger, chain, estimates.lives(), factors),
                    WearStanding.of(ledger, chain, estimates.wear(), factors),
                    chain.riddenMetres(),
                    rides.stream().mapToDouble(RideExposure::wearMetres).sum(),
                    rides.isEmpty() ? null : rides.get(rides.size() - 1).ride().bike()));
        }
        return List.copyOf(all);
    }
}
