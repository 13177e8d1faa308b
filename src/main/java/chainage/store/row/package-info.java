/** The rows of the ledger's tables, and what is kept in them: their sums, their texts, and the lines of an export. */
@NullMarked
package chainage.store.row;

import org.jspecify.annotations.NullMarked;
