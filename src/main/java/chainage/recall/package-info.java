/**
 * What was worked out of the rides, kept so that the next short answer need not read them: an analysis's gist in a file of
 * the cache, under all that it was worked out from.
 *
 * <p>It is a memory and no second truth. One that was worked out from anything else, or that is damaged, half written or
 * not ours alone, is none, and all of it may be deleted at any time. {@code check} works all out anew and holds the two
 * against each other, byte by byte.
 */
@NullMarked
package chainage.recall;

import org.jspecify.annotations.NullMarked;
