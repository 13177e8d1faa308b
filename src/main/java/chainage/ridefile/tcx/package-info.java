/** Reads TCX: every activity with its laps, wherever it stands in the document; courses and workouts passed over. */
@NullMarked
package chainage.ridefile.tcx;

import org.jspecify.annotations.NullMarked;
