/**
 * Tables that riders keep or are given: the cells of a text, whatever program wrote it; which of its columns holds what,
 * told by their contents and their headings; and the lines of a logbook that say what its rows say. Nothing here opens a
 * file; which options a command has is handed in.
 */
@NullMarked
package chainage.table;

import org.jspecify.annotations.NullMarked;
