package chainage.ledger;

import java.time.Instant;

/**
 * One line of the ledger: a fact, its number, and when it was written down.
 *
 * @param number 1, 2, 3 … in order of writing
 * @param command number of the first entry that the same command wrote; what was said together is taken back together
 * @param recorded when it was written, which is not when it happened
 * @param event the fact
 */
public record Entry(long number, long command, Instant recorded, Event event) {}
