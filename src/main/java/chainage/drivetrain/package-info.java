/**
 * What went through a chain: its geometry, the gear that was ridden, and the sliding work in its joints. In goes a
 * ride's pedalling table and what the rider told of the bike; out comes work, the load against a reference rider, and
 * how much of the ride could be used.
 *
 * <p>Geometry is textbook; the sliding work follows from it. Caps and tolerances are our guesses and say so. It knows
 * nothing of treatments, friction coefficients or roads.
 */
@NullMarked
package chainage.drivetrain;

import org.jspecify.annotations.NullMarked;
