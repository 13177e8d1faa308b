/**
 * Reads the text formats' XML safely and forgivingly: no document types, no entities from outside, prefixes stripped
 * without asking for their declaration; numbers and times as devices write them.
 */
@NullMarked
package chainage.ridefile.xml;

import org.jspecify.annotations.NullMarked;
