package chainage.analysis;

import chainage.ledger.Entry;
import chainage.ride.FiledRide;
import chainage.weather.Observation;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * All facts at one moment.
 *
 * @param entries by number
 * @param rides by start, then digest, then session
 * @param weather observations from before the first ride to after the last, each under the number of the entry that
 *     brought it, in force or not, by that number
 */
public record Snapshot(List<Entry> entries, List<FiledRide> rides, Map<Long, List<Observation>> weather) {
    /** No facts. */
    public static final Snapshot EMPTY = new Snapshot(List.of(), List.of(), Map.of());

    public Snapshot {
        entries = List.copyOf(entries);
        rides = List.copyOf(rides);
        weather = Collections.unmodifiableMap(new TreeMap<>(weather));
    }

    /**
     * The facts as they are kept, with each ride under the id that it has among these, in facts too.
     *
     * @param kept rides in the order in which they are kept
     */
    public static Snapshot of(List<Entry> entries, List<FiledRide> kept, Map<Long, List<Observation>> weather) {
        RideNames names = new RideNames(kept);
        // Here and not in the statement: most come in order, and SQLite would write out all rows to sort them.
        List<FiledRide> rides = new ArrayList<>(kept);
        rides.sort(FiledRide.BY_START);
        if (names.isPlain()) {
            return new Snapshot(entries, rides, weather);
        }
        rides.replaceAll(names::name);
        return new Snapshot(entries.stream().map(e -> e.withRides(names::meant)).toList(), rides, weather);
    }

    /** The same rides and weather with other entries. */
    public Snapshot withEntries(List<Entry> others) {
        return new Snapshot(others, rides, weather);
    }
}
