/**
 * What chains lose, now and ride by ride.
 */
@NullMarked
package chainage.answer.loss;

import org.jspecify.annotations.NullMarked;
