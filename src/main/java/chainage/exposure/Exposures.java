package chainage.exposure;

import chainage.attribution.AttributedRide;
import chainage.condition.Condition;
import chainage.condition.Conditions;
import chainage.drivetrain.Drivetrain;
import chainage.drivetrain.Load;
import chainage.drivetrain.Pedalled;
import chainage.drivetrain.Reference;
import chainage.ledger.Event;
import chainage.ledger.Installation;
import chainage.ledger.Ledger;
import chainage.ride.FiledRide;
import chainage.ride.Ride;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;

/**
 * The fold over all rides.
 *
 * @param chains what was ridden on each chain of the ledger, by name
 * @param counted every ride that counts, by ride id, in order of their starts
 * @param unattributed counted rides that lack a chain, by start; not those that are to have none
 * @param unattributedMetres their metres, as they would count
 */
public record Exposures(
        Map<String, ChainExposure> chains,
        Map<String, CountedRide> counted,
        List<AttributedRide> unattributed,
        double unattributedMetres) {

    /** Metres that a ride counts for a chain; those of its file when it does not count. */
    public double metresOf(AttributedRide ride) {
        CountedRide known = counted.get(ride.id());
        return known == null
                ? ride.filed().ride().distance().metres()
                : known.metres().metres();
    }

    private static ChainFold fold(
            Ledger ledger,
            Event.ChainDescribed chain,
            Factors factors,
            ToDoubleFunction<Event.ProductDescribed> lives) {
        return new ChainFold(TreatmentSchedule.noted(ledger, chain.chain()), factors, chain, lives);
    }

    /**
     * A part of it.
     *
     * @param chain whether what was ridden on a chain is in it
     * @param ride whether a ride is
     */
    public Exposures only(Predicate<String> chain, Predicate<AttributedRide> ride) {
        Map<String, ChainExposure> ofChains = new LinkedHashMap<>(chains);
        ofChains.keySet().removeIf(chain.negate());
        Map<String, CountedRide> ofRides = new LinkedHashMap<>(counted);
        ofRides.values().removeIf(r -> !ride.test(r.ride()));
        List<AttributedRide> bare = unattributed.stream().filter(ride).toList();
        return new Exposures(
                ofChains,
                ofRides,
                bare,
                bare.stream().mapToDouble(this::metresOf).sum());
    }

    /**
     * The same rides with treatments that last so long: what was learnt of lives says when a chain ran untreated.
     *
     * @param lives likely life of a product's treatment, metres of dry clean road; NaN where it has none to lose
     */
    public Exposures lasting(Ledger ledger, Factors factors, ToDoubleFunction<Event.ProductDescribed> lives) {
        Map<String, ChainFold> running = new LinkedHashMap<>();
        chains.values().forEach(c -> running.put(c.chain().chain(), fold(ledger, c.chain(), factors, lives)));
        Loads loads = new Loads(ledger, factors);
        Map<String, CountedRide> again = new LinkedHashMap<>();
        counted.forEach((id, r) -> {
            List<RideExposure> others = follow(running, r.ride(), r.condition(), r.metres(), loads);
            ChainFold chain = r.exposure() == null ? null : running.get(r.ride().chain());
            RideExposure exposure = chain == null || r.exposure() == null
                    ? r.exposure()
                    : chain.take(
                            r.ride(), r.condition(), r.metres(), r.exposure().load());
            again.put(id, new CountedRide(r.ride(), r.condition(), r.metres(), exposure, others));
        });
        return of(running, again, unattributed, unattributedMetres);
    }

    private static Exposures of(
            Map<String, ChainFold> running,
            Map<String, CountedRide> counted,
            List<AttributedRide> unattributed,
            double unattributedMetres) {
        Map<String, ChainExposure> chains = new LinkedHashMap<>();
        running.forEach((name, c) -> chains.put(name, c.result()));
        return new Exposures(
                Collections.unmodifiableMap(chains),
                Collections.unmodifiableMap(counted),
                List.copyOf(unattributed),
                unattributedMetres);
    }

    /**
     * Folds the rides into the chains, treatments lasting as long as the table says.
     *
     * @param rides every activity with its verdict, by start
     * @param road what weighs the evidence on each ride's road
     */
    public static Exposures of(Ledger ledger, List<AttributedRide> rides, Conditions road, Factors factors) {
        Map<String, ChainFold> running = new LinkedHashMap<>();
        ledger.chains()
                .values()
                .forEach(c ->
                        running.put(c.chain(), fold(ledger, c, factors, p -> factors.likelyLifeMetres(p.method()))));
        Loads loads = new Loads(ledger, factors);
        Map<String, CountedRide> counted = new LinkedHashMap<>();
        List<AttributedRide> unattributed = new ArrayList<>();
        double unattributedMetres = 0;
        for (AttributedRide r : rides) {
            if (!r.counted()) {
                continue;
            }
            List<FiledRide> recordings = new ArrayList<>(List.of(r.filed()));
            recordings.addAll(r.twins());
            Condition condition = road.of(recordings);
            ChainMetres metres = ChainMetres.of(
                    r.filed().ride(), r.bike() == null ? null : ledger.bikes().get(r.bike()), factors);
            ChainFold chain = r.chain() == null ? null : running.get(r.chain());
            RideExposure exposure = chain == null ? null : chain.take(r, condition, metres, loads.of(r, metres));
            List<RideExposure> others = follow(running, r, condition, metres, loads);
            counted.put(r.id(), new CountedRide(r, condition, metres, exposure, others));
            if (exposure == null && r.wantsChain()) {
                unattributed.add(r);
                unattributedMetres += metres.metres();
            }
        }
        return of(running, counted, unattributed, unattributedMetres);
    }

    /** Counts a ride for the chains that run beside its own. */
    private static List<RideExposure> follow(
            Map<String, ChainFold> running, AttributedRide ride, Condition condition, ChainMetres metres, Loads loads) {
        if (ride.others().isEmpty()) {
            return List.of();
        }
        List<RideExposure> others = new ArrayList<>();
        for (Installation other : ride.others()) {
            ChainFold follower = running.get(other.chain());
            if (follower != null) {
                AttributedRide with = ride.with(other);
                others.add(follower.take(with, condition, metres, loads.of(with, metres)));
            }
        }
        return others;
    }

    /** Loads of rides, each bike's drivetrain read once. */
    private static final class Loads {
        private final Reference reference;
        private final Factors.Factor motor;
        private final Drivetrain unknown;
        private final Map<String, Drivetrain> bikes = new HashMap<>();

        Loads(Ledger ledger, Factors factors) {
            reference = factors.reference();
            motor = factors.factor("load.motor");
            unknown = factors.drivetrain(null);
            ledger.bikes().values().forEach(b -> bikes.put(b.bike(), factors.drivetrain(b)));
        }

        Load of(AttributedRide ride, ChainMetres metres) {
            Drivetrain bike = ride.bike() == null ? unknown : bikes.getOrDefault(ride.bike(), unknown);
            Ride ridden = ride.filed().ride();
            Load load = Load.of(Pedalled.of(ridden, bike, reference), metres.metres(), reference);
            return ridden.activity().assisted() ? load.helped(motor.value(), motor.mark(), reference) : load;
        }
    }
}
