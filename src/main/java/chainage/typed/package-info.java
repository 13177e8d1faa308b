/**
 * What the rider typed: numbers, quantities, dates, names and rides become values, or are refused with what may be
 * meant.
 */
@NullMarked
package chainage.typed;

import org.jspecify.annotations.NullMarked;
