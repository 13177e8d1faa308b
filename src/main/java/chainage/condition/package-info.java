/**
 * How wet and how gritty a ride was, from its evidence, overruled by what the rider stated, with the reason.
 *
 * <p>Evidence and flags in, one {@link chainage.condition.Condition} out. What a condition does to a chain is not known
 * here.
 */
@NullMarked
package chainage.condition;

import org.jspecify.annotations.NullMarked;
