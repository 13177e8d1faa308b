/**
 * How wet and gritty roads were, and by whose word.
 */
@NullMarked
package chainage.answer.road;

import org.jspecify.annotations.NullMarked;
