package chainage.simulation;

import chainage.TestLedger;
import chainage.analysis.Analysis;
import chainage.analysis.Snapshot;
import chainage.analysis.Tables;
import chainage.ledger.Entry;
import chainage.ledger.Grit;
import chainage.ledger.Method;
import chainage.ledger.Moisture;
import chainage.ride.FiledRide;
import java.time.Instant;
import java.util.List;
import java.util.Map;

/**
 * What a rider noted, and what was true of it.
 *
 * @param method of all treatments
 * @param entries what was noted
 * @param outings all rides, by start
 * @param treatments by time
 * @param chains true elongation of each chain
 */
record Story(
        Scenario scenario,
        Method method,
        List<Entry> entries,
        List<Outing> outings,
        List<Treatment> treatments,
        List<Worn> chains) {
    private static final Tables TABLES = TestLedger.tables();

    /**
     * A ride.
     *
     * @param used true metres of dry clean road that it took of its treatment
     */
    record Outing(FiledRide ride, String chain, double metres, Moisture moisture, Grit grit, double used) {
        Instant start() {
            return ride.ride().start();
        }
    }

    /**
     * A treatment.
     *
     * @param typicalMetres true median of such lives, dry clean road
     * @param lowMetres true 10 % quantile of them
     * @param highMetres true 90 % quantile
     * @param lifeMetres true life of this one
     * @param noted whether its end was noted
     * @param firstRide place of its first ride among the outings
     * @param lastRide place after its last
     */
    record Treatment(
            String chain,
            String product,
            Instant at,
            double typicalMetres,
            double lowMetres,
            double highMetres,
            double lifeMetres,
            boolean noted,
            int firstRide,
            int lastRide) {}

    /**
     * A chain at the end of a ride.
     *
     * @param ride place of the ride among the outings
     * @param percent its true elongation then
     * @param readings of it so far
     */
    record Worn(String chain, int ride, Instant at, double percent, int readings) {}

    /** What the program makes of what was noted by then. */
    Analysis at(Instant at) {
        return Analysis.of(
                new Snapshot(entries, outings.stream().map(Outing::ride).toList(), Map.of()), TABLES, at);
    }
}
