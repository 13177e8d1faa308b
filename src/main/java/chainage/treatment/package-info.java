/**
 * When a chain's next treatment is due.
 *
 * <p>A chain's exposure and the table of factors in, its share of the treatment's life out.
 */
@NullMarked
package chainage.treatment;

import org.jspecify.annotations.NullMarked;
