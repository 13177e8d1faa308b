/**
 * The forms that an answer can have: columns declared once, from which text tables, JSON, spreadsheets and their documentation follow; and the outlet that every line for people goes through.
 */
@NullMarked
package chainage.render;

import org.jspecify.annotations.NullMarked;
