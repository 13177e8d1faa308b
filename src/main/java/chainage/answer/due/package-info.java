/**
 * Where the chains stand: which is nearest its limit, when to treat and when to replace, how sure that is, and why.
 */
@NullMarked
package chainage.answer.due;

import org.jspecify.annotations.NullMarked;
