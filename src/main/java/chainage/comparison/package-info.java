/**
 * Which of two products does better with this rider: lasts longer, lets the chain wear more slowly.
 *
 * <p>What is known of products' lives and of wear under them goes in; for each pair a chance comes out, a verdict where
 * it is high enough, and else how much more would have to be seen. The lives and rates themselves are learnt elsewhere.
 */
@NullMarked
package chainage.comparison;

import org.jspecify.annotations.NullMarked;
