/**
 * The facts of one ride, as its file states them, and the one-pass fold that gathers them from samples.
 *
 * <p>Samples go in, one small immutable {@link chainage.ride.Ride} comes out: totals, the pedalling table, and all the
 * evidence that attribution and condition need, so that a better model never needs a second import. Nothing here knows
 * of bikes, chains, files or clocks.
 */
@NullMarked
package chainage.ride;

import org.jspecify.annotations.NullMarked;
