/**
 * What a chain's state costs: friction loss in watts for a stated effort, and in joules for a ride.
 *
 * <p>In go a chain's exposure and the strokes of its rides; out come losses, linear in the coefficient of friction. The
 * structure of the model is published, its coefficients for treated chains are not: every loss carries a band of one
 * percentage point of efficiency. It knows nothing of roads or of money; {@code chainage explain loss} is its paper.
 */
@NullMarked
package chainage.friction;

import org.jspecify.annotations.NullMarked;
