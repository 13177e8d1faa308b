/**
 * What products would have cost on the rider's own rides.
 */
@NullMarked
package chainage.answer.cost;

import org.jspecify.annotations.NullMarked;
