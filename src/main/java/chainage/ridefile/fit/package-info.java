/**
 * Reads FIT files: parts of a chained file one by one, sessions apart, whatever came before a break kept. A whole, plain
 * part is read straight from its bytes; the FIT SDK reads all others, and is the authority on what a part says. The only
 * place that knows the SDK.
 */
@NullMarked
package chainage.ridefile.fit;

import org.jspecify.annotations.NullMarked;
