/**
 * What a product costs to use: the rides of a period replayed as if every chain had been treated with it, watts saved
 * against a baseline, money in the smallest unit of its currency, minutes.
 *
 * <p>In go the ledger, the chains' exposures and the life of each product; out come quantities, and their price. Money is
 * never held in floating point; {@code chainage explain cost} is its paper.
 */
@NullMarked
package chainage.cost;

import org.jspecify.annotations.NullMarked;
