package chainage.store;

import chainage.ride.Ride;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One file's contribution to the ledger.
 *
 * @param source what the path held
 * @param rides its activities; empty when its content was known, refused, or no ride
 * @param ahead the earliest date in it that was refused as ahead of the clock; null where nothing hung on the clock
 */
public record Delivery(
        Source source, List<Ride> rides, @Nullable Instant ahead) {
    /** One whose verdict the clock has no part in. */
    public Delivery(Source source, List<Ride> rides) {
        this(source, rides, null);
    }

    public Delivery {
        rides = List.copyOf(rides);
        for (Ride ride : rides) {
            if (!ride.key().digest().equals(source.digest())) {
                throw new IllegalArgumentException("a ride of " + ride.key().digest() + " under " + source);
            }
        }
    }
}
