/**
 * A night's work, and how a scheduler is told of it.
 */
@NullMarked
package chainage.night;

import org.jspecify.annotations.NullMarked;
