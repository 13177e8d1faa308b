/**
 * Rides, and what each rests on.
 */
@NullMarked
package chainage.answer.rides;

import org.jspecify.annotations.NullMarked;
