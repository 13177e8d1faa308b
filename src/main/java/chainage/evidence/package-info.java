/**
 * What chains have shown, in a form that may be given to others: no name but a product's, no place, no date, no ride.
 *
 * <p>A ledger's treatments and their rides in, lines of a file out, and back again: the lives that other riders' treatments
 * had. What they amount to is weighed elsewhere.
 */
@NullMarked
package chainage.evidence;

import org.jspecify.annotations.NullMarked;
