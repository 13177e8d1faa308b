/**
 * Which bike, and so which chain, a ride belongs to, with the reason; which activities are rides at all; and which
 * recordings are of one outing.
 *
 * <p>Rides and the ledger go in, each ride with its verdict comes out. Nothing is stored: a rule added today speaks for
 * the rides of last year.
 */
@NullMarked
package chainage.attribution;

import org.jspecify.annotations.NullMarked;
