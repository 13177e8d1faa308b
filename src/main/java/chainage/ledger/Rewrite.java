package chainage.ledger;

import java.time.Instant;

/** Goes through what a fact speaks of: each name, each ride and its date is given, and may come back as another. */
interface Rewrite {
    default String name(Event.Named what, String name) {
        return name;
    }

    /** The id of a ride. */
    default String ride(String id) {
        return id;
    }

    /** When the fact happened. */
    default Instant date(Instant at) {
        return at;
    }
}
