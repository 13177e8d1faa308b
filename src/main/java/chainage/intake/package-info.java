/**
 * Files that come in and go out: rides, logbooks and tables, weather, exports, courses, others' evidence and one's own, the
 * invented season, and what is refused.
 */
@NullMarked
package chainage.intake;

import org.jspecify.annotations.NullMarked;
