/** What is said beside a fact that is stated: what it may have been meant as, and what follows for the rider. */
@NullMarked
package chainage.answer.beside;

import org.jspecify.annotations.NullMarked;
