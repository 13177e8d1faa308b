/**
 * How far a chain is elongated and what is left to its limit.
 *
 * <p>A chain's exposure, its readings and the table of factors in, an elongation with its interval out.
 */
@NullMarked
package chainage.wear;

import org.jspecify.annotations.NullMarked;
