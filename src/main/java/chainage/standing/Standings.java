package chainage.standing;

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
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import org.jspecify.annotations.Nullable;

/** Ranks the chains. */
public final class Standings {
    /**
     * A chain's place among others, nearest its limit first: chains out of service still on a bike, then by share of the nearest
     * limit, ties by name.
     *
     * @param used share of that limit
     */
    public record Rank(boolean outOfService, double used, String chain) implements Comparable<Rank> {
        private static final Comparator<Rank> NEAREST_FIRST = Comparator.comparing((Rank r) -> !r.outOfService)
                .thenComparing(r -> -r.used)
                .thenComparing(r -> r.chain);

        public static Rank of(Standing s) {
            return new Rank(s.wear().outOfService() != null, s.used(), s.chain());
        }

        public boolean due() {
            return used >= 1;
        }

        @Override
        public int compareTo(Rank other) {
            return NEAREST_FIRST.compare(this, other);
        }
    }

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
        return of(
                ledger,
                Reached.of(ledger, exposures, estimates, factors, at),
                Habits.of(exposures, factors, at),
                factors,
                at);
    }

    /** The same of chains that have come so far, on bikes that are ridden so. */
    public static List<Standing> of(Ledger ledger, List<Reached> chains, Habits habits, Factors factors, Instant at) {
        List<Standing> standings = new ArrayList<>();
        Map<String, Weeks> bikes = Weeks.byBike(habits, factors, at);
        for (Reached reached : chains) {
            ChainExposure chain = reached.exposure();
            Installation installation = reached.installation();
            TreatmentStanding treatment = reached.treatment();
            WearStanding wear = reached.wear();
            String bike = installation == null ? reached.lastBike() : installation.bike();
            Weeks weeks = bike == null ? null : bikes.get(ledger.ridden(bike));
            Futures.@Nullable Sums using = weeks == null || installation == null
                    ? null
                    : weeks.treatment(chain.product().method());
            Weeks.@Nullable Usual usual =
                    weeks == null ? null : weeks.usual(chain.product().method());
            double treated = weeks == null ? 1 : share(weeks, chain, chain.treatedAt(), 1);
            double worn = weeks == null ? 1 : share(weeks, chain, null, installation == null ? Double.NaN : 1);
            standings.add(new Standing(
                    chain,
                    installation,
                    treatment,
                    wear,
                    usual == null ? 0 : usual.ride(),
                    usual == null ? Double.NaN : usual.metre(),
                    usual == null || installation == null || treatment.lifeMetres() == null
                            ? Double.NaN
                            : 7 * treatment.limitMetres() / (treated * usual.week()),
                    using == null ? null : Dates.of(at, using, treated, left(treatment)),
                    // No guess once the risk is chosen.
                    using == null ? null : Dates.of(at, using, treated, z -> treatment.dueInMetres()),
                    weeks == null || Double.isNaN(worn) ? null : Dates.of(at, weeks.wear(), worn, left(reached))));
        }
        standings.sort(Comparator.comparing(Rank::of));
        return List.copyOf(standings);
    }

    /**
     * Share of a bike's rides that a chain gets: what it had of them since its treatment, or since its first; so a chain
     * that runs until it is treated gets all of them until then, and one that takes turns its part.
     *
     * @param none where it had no ride since
     */
    private static double share(Weeks weeks, ChainExposure chain, @Nullable Instant since, double none) {
        double share = weeks.share(chain.chain().chain(), since == null ? Instant.MIN : since);
        return Double.isNaN(share) ? none : share;
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
    private static DoubleUnaryOperator left(Reached chain) {
        WearStanding wear = chain.wear();
        if (wear.outOfService() != null) {
            return z -> 0;
        }
        // What is left is told in metres of the chain's own mix of roads, from where there is a mix.
        double ridden = chain.riddenMetres();
        double each = ridden < WearStanding.ENOUGH_METRES ? 1 : chain.wearMetres() / ridden;
        double done = wear.expectedPercent() / wear.percentPerMetre();
        Estimate left = wear.ridableMetres();
        DoubleUnaryOperator whole =
                Spread.quantiles(new Estimate(left.low() + done, left.likely() + done, left.high() + done));
        return z -> (whole.applyAsDouble(z) - done) * each;
    }
}
