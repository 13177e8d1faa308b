/**
 * What the rider states: bikes, chains, products, installations, treatments, readings, remarks, flags, rules.
 *
 * <p>Facts go in as a list of numbered {@link chainage.ledger.Entry entries}; a checked snapshot, the
 * {@link chainage.ledger.Ledger}, comes out, with every contradiction as a value. Nothing here knows of files, of the
 * database, or of what a ride did to a chain.
 */
@NullMarked
package chainage.ledger;

import org.jspecify.annotations.NullMarked;
