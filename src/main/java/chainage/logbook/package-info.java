/**
 * A logbook: a text file whose lines state facts in the words of commands. Its text becomes lines; a reading holds the
 * lines against what is remembered of the file and says which facts are to be stated and which taken back. Here stands in
 * which words each kind of fact is written; how a line is carried out is the caller's.
 */
@NullMarked
package chainage.logbook;

import org.jspecify.annotations.NullMarked;
