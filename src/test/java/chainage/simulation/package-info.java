/**
 * Riders made by other rules than the models': their treatments end within rides and are heard after them, or not, their
 * chains wear while they ride, and they read them as well as they can. What the program makes of what such a rider notes
 * is held against what is true of that rider.
 *
 * <p>Nothing here comes from the models: constants, random numbers and arithmetic are its own.
 */
@NullMarked
package chainage.simulation;

import org.jspecify.annotations.NullMarked;
