/**
 * The page: the other answers with their plots, as one document.
 */
@NullMarked
package chainage.answer.page;

import org.jspecify.annotations.NullMarked;
