/**
 * Small values that many packages share: a half-open interval of time, an estimate with its interval, money, the digest
 * of a file's content, a moment as people name it.
 *
 * <p>Values in, values out. This package knows nothing of rides, chains or files.
 */
@NullMarked
package chainage.quantity;

import org.jspecify.annotations.NullMarked;
