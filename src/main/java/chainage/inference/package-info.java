/**
 * Learning from few observations: densities on a grid, and two-level models of things that are alike.
 *
 * <p>Plain numbers in, densities out. This package knows nothing of chains; what a number means is the caller's.
 */
@NullMarked
package chainage.inference;

import org.jspecify.annotations.NullMarked;
