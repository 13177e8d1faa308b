/**
 * What follows from the facts at one instant: a snapshot goes in, all derivations come out, each worked out once.
 */
@NullMarked
package chainage.analysis;

import org.jspecify.annotations.NullMarked;
