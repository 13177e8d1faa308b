/**
 * What an import did, file by file, and what the new rides mean.
 */
@NullMarked
package chainage.answer.imports;

import org.jspecify.annotations.NullMarked;
