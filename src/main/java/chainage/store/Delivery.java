package chainage.store;

import chainage.ride.Ride;
import java.util.List;

/**
 * One file's contribution to the ledger.
 *
 * @param source what the path held
 * @param rides its activities; empty when its content was known, refused, or no ride
 */
public record Delivery(Source source, List<Ride> rides) {
    public Delivery {
        rides = List.copyOf(rides);
        for (Ride ride : rides) {
            if (!ride.key().digest().equals(source.digest())) {
                throw new IllegalArgumentException("a ride of " + ride.key().digest() + " under " + source);
            }
        }
    }
}
