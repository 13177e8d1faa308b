/**
 * Two power meters on one ride, one before the chain and one behind it: what the chain took is what lies between them.
 *
 * <p>In go the recordings of one outing with their power by the minute, and where the rider says that each meter sits;
 * out come pairs laid over each other, and what all pairs together tell of products and of their rise over a life. It
 * knows nothing of sentences. Meters differ by a per cent and more and wander from ride to ride, so that only differences
 * between states are measured, never the level, unless a calibration is stated; {@code chainage explain pairs} is its
 * paper. The bounds and spreads are our guesses where no source stands beside them.
 */
@NullMarked
package chainage.meter;

import org.jspecify.annotations.NullMarked;
