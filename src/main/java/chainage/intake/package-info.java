/**
 * What is brought in: rides, logbooks and tables, weather, exports, others' evidence, and the files that are refused.
 */
@NullMarked
package chainage.intake;

import org.jspecify.annotations.NullMarked;
