/**
 * The answer: one record a chain, joining what is left of its treatment and of the chain itself, ranked by what is
 * nearest its limit.
 */
@NullMarked
package chainage.standing;

import org.jspecify.annotations.NullMarked;
