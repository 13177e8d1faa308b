/**
 * How long the program takes, as multiples of the least that any program must do for the same job, measured in the
 * same run on the same machine. Every run is a cold process. The profile {@code bench} of the pom runs {@link Bench}.
 */
@NullMarked
package chainage.bench;

import org.jspecify.annotations.NullMarked;
