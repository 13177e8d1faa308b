/**
 * The logbook and the ledger kept one: lines carried out by the commands themselves, and commands written as lines.
 */
@NullMarked
package chainage.bookkeeping;

import org.jspecify.annotations.NullMarked;
