/**
 * The answer: one record a chain, joining what is left of its treatment and of the chain itself, ranked by what is
 * nearest its limit.
 *
 * <p>Dates come of possible futures of a bike, drawn from its own past weeks; the drawing follows from the ledger alone.
 */
@NullMarked
package chainage.standing;

import org.jspecify.annotations.NullMarked;
