/** The ledger's one file: opened, locked, grown to today's tables, copied whole, and mended where a stop has left a log. */
@NullMarked
package chainage.store.file;

import org.jspecify.annotations.NullMarked;
