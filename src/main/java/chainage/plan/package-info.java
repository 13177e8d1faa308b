/**
 * What to do in the coming weeks: treatments, sessions at the pot that serve several chains, the chain to install next,
 * what to buy.
 *
 * <p>The ledger and where its chains stand in, proposals out. Nothing here is a fact, and a forecast never overrules what
 * the rider measures or sees; {@code chainage explain plan} is its paper.
 */
@NullMarked
package chainage.plan;

import org.jspecify.annotations.NullMarked;
