/**
 * Reads FIT files with the FIT SDK: parts of a chained file one by one, sessions apart, whatever came before a break
 * kept. The only place that knows the SDK.
 */
@NullMarked
package chainage.ridefile.fit;

import org.jspecify.annotations.NullMarked;
