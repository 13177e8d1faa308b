/**
 * How long a course takes at a given power: air, rolling, gradient, bearings and inertia after Martin et al., "Validation
 * of a mathematical model for road cycling power", J. Appl. Biomech. 14 (1998) 276.
 *
 * <p>In go a rider, a road and watts at the wheel; out come speed, time and where the energy went. It knows nothing of
 * chains: what they lose is taken off before. {@code chainage explain course} is its paper.
 */
@NullMarked
package chainage.course;

import org.jspecify.annotations.NullMarked;
