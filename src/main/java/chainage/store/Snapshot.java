package chainage.store;

import chainage.ledger.Entry;
import chainage.ride.FiledRide;
import java.util.List;

/**
 * All facts at one moment.
 *
 * @param entries by number
 * @param rides by start, then digest, then session
 */
public record Snapshot(List<Entry> entries, List<FiledRide> rides) {
    public Snapshot {
        entries = List.copyOf(entries);
        rides = List.copyOf(rides);
    }
}
