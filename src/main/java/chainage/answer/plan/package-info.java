/**
 * What to do in the coming weeks.
 */
@NullMarked
package chainage.answer.plan;

import org.jspecify.annotations.NullMarked;
