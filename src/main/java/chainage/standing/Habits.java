package chainage.standing;

import chainage.attribution.AttributedRide;
import chainage.exposure.CountedRide;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.exposure.RideExposure;
import chainage.ledger.Grit;
import chainage.ledger.Installation;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What the weeks to come are told from: the last year's rides of each bike.
 *
 * @param seed what the drawing of futures follows from
 * @param bikes by name, those that were ever ridden
 */
public record Habits(long seed, Map<String, Habit> bikes) {
    /**
     * One bike's.
     *
     * @param first when its first ride began, however long ago
     * @param rides by start
     */
    public record Habit(Instant first, List<Ridden> rides) {}

    /**
     * One ride.
     *
     * @param wet share of it on a wet road
     * @param damp share of it on a damp one
     * @param wearMetres metres of dry clean road at the reference load
     * @param chains that ran in it
     */
    public record Ridden(
            Instant start, double metres, double wet, double damp, Grit grit, double wearMetres, List<String> chains) {}

    /**
     * The rides of the year before an instant.
     *
     * @param exposures of the rides begun by then
     */
    public static Habits of(Exposures exposures, Factors factors, Instant at) {
        Map<String, Habit> bikes = new LinkedHashMap<>();
        for (CountedRide r : exposures.counted().values()) {
            String bike = r.ride().bike();
            if (bike != null) {
                Habit habit = bikes.computeIfAbsent(bike, b -> new Habit(r.start(), new ArrayList<>()));
                if (Weeks.week(r.start(), at) < Futures.YEAR) {
                    habit.rides().add(ridden(r, factors));
                }
            }
        }
        // The first ride names the stream: the same ledger, the same futures, and one more ride or a new name does not
        // deal all cards anew.
        long seed = exposures.counted().values().stream()
                .findFirst()
                .map(r -> Long.parseLong(r.ride().filed().ride().key().shortestId(), 16))
                .orElse(0L);
        return new Habits(seed, bikes);
    }

    private static Ridden ridden(CountedRide r, Factors factors) {
        double metres = r.metres().metres();
        RideExposure e = r.exposure();
        return new Ridden(
                r.start(),
                metres,
                r.condition().wetShare(),
                r.condition().dampShare(),
                r.condition().grit(),
                // Without a chain no load was worked out; it counts as the reference rider's.
                e == null ? metres * factors.wearFactor(r.condition()) : e.wearMetres(),
                chains(r.ride()));
    }

    private static List<String> chains(AttributedRide ride) {
        String chain = ride.chain();
        if (ride.others().isEmpty()) {
            return chain == null ? List.of() : List.of(chain);
        }
        List<String> chains =
                new ArrayList<>(ride.others().stream().map(Installation::chain).toList());
        if (chain != null) {
            chains.add(0, chain);
        }
        return chains;
    }
}
