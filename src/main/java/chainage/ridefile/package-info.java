/**
 * Bytes of one ride file in, its activities out. The format is told by the content, never by the name.
 *
 * <p>Each format has a subpackage whose reader pushes samples into a {@link chainage.ride.RideFold}. Nothing here opens
 * files, knows the ledger, or decides which bike it was.
 */
@NullMarked
package chainage.ridefile;

import org.jspecify.annotations.NullMarked;
