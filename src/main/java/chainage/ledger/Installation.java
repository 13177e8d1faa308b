package chainage.ledger;

import chainage.quantity.Interval;

/**
 * A chain on a bike for a while.
 *
 * @param interval half-open; its end is open while the chain is on
 * @param entry number of the entry that put it on
 */
public record Installation(String chain, String bike, Interval interval, long entry) {}
