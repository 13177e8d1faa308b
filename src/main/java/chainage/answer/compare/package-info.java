/**
 * Which of two products does better.
 */
@NullMarked
package chainage.answer.compare;

import org.jspecify.annotations.NullMarked;
