package chainage.standing;

import chainage.exposure.ChainExposure;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.exposure.RideExposure;
import chainage.ledger.Installation;
import chainage.ledger.Ledger;
import chainage.quantity.Estimate;
import chainage.treatment.TreatmentStanding;
import chainage.wear.WearStanding;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;

/** Ranks the chains. */
public final class Standings {
    /** Condemned chains still on a bike, then by share of the nearest limit, ties by name. */
    private static final Comparator<Standing> NEAREST_FIRST = Comparator.comparing(
                    (Standing s) -> s.wear().outOfService() == null)
            .thenComparing(s -> -s.used())
            .thenComparing(Standing::chain);

    private Standings() {}

    /**
     * Where every chain in use stands, nearest its limit first. Retired and damaged chains are left out once they are off
     * the bike.
     *
     * @param exposures of the rides begun by then
     * @param estimates what all chains have taught
     * @param at now
     */
    public static List<Standing> of(
            Ledger ledger, Exposures exposures, Estimates estimates, Factors factors, Instant at) {
        List<Standing> standings = new ArrayList<>();
        Map<String, Weeks> bikes = Weeks.byBike(exposures, factors, at);
        for (ChainExposure chain : exposures.chains().values()) {
            String name = chain.chain().chain();
            Installation installation = ledger.installationOf(name, at).orElse(null);
            if (installation == null && ledger.outOfService(name).isPresent()) {
                continue;
            }
            TreatmentStanding treatment = TreatmentStanding.of(ledger, chain, estimates.lives(), factors);
            WearStanding wear = WearStanding.of(ledger, chain, estimates.wear(), factors);
            Weeks weeks = installation == null ? null : bikes.get(ledger.ridden(installation.bike()));
            standings.add(new Standing(
                    chain,
                    installation,
                    treatment,
                    wear,
                    weeks == null
                            ? null
                            : Dates.of(at, weeks.treatment(chain.product().method()), left(treatment)),
                    // No guess once the risk is chosen.
                    weeks == null
                            ? null
                            : Dates.of(at, weeks.treatment(chain.product().method()), z -> treatment.dueInMetres()),
                    weeks == null ? null : Dates.of(at, weeks.wear(), left(chain, wear))));
        }
        standings.sort(NEAREST_FIRST);
        return List.copyOf(standings);
    }

    /** What is left of a treatment by normal score, in metres of dry clean road. */
    private static DoubleUnaryOperator left(TreatmentStanding treatment) {
        Estimate life = treatment.lifeMetres();
        if (life == null || treatment.noisy() != null) {
            return z -> Math.min(0, treatment.dueInMetres());
        }
        DoubleUnaryOperator lives = Spread.quantiles(life);
        return z -> lives.applyAsDouble(z) - treatment.exposureMetres();
    }

    /** What is left of a chain by normal score, in metres of dry clean road at the reference load. */
    private static DoubleUnaryOperator left(ChainExposure chain, WearStanding wear) {
        if (wear.outOfService() != null) {
            return z -> 0;
        }
        // What is left is told in metres of the chain's own mix of roads, from where there is a mix.
        double ridden = chain.riddenMetres();
        double each = ridden < WearStanding.ENOUGH_METRES
                ? 1
                : chain.rides().stream().mapToDouble(RideExposure::wearMetres).sum() / ridden;
        double done = wear.expectedPercent() / wear.percentPerMetre();
        Estimate left = wear.ridableMetres();
        DoubleUnaryOperator whole =
                Spread.quantiles(new Estimate(left.low() + done, left.likely() + done, left.high() + done));
        return z -> (whole.applyAsDouble(z) - done) * each;
    }
}
