/**
 * The ledger file: one SQLite database that facts are appended to and a snapshot is loaded from.
 *
 * <p>The only package that knows SQL. It stores entries and rides as they are and derives nothing from them.
 */
@NullMarked
package chainage.store;

import org.jspecify.annotations.NullMarked;
