package chainage.page;

import java.util.List;

/**
 * A table; the first cell of each row names it.
 *
 * @param caption what it shows
 * @param columns at least one
 * @param rows as many cells each as there are columns
 * @param sortable whether the reader may sort it, which wants plain figures without units in numeric columns
 */
public record Grid(String caption, List<Column> columns, List<List<Cell>> rows, boolean sortable) {
    public Grid {
        columns = List.copyOf(columns);
        rows = List.copyOf(rows);
        int width = columns.size();
        if (columns.isEmpty() || rows.stream().anyMatch(r -> r.size() != width)) {
            throw new IllegalArgumentException("ragged table: " + caption);
        }
    }

    /**
     * A column.
     *
     * @param title its heading
     * @param numeric set flush right, and sorted by value
     */
    public record Column(String title, boolean numeric) {}

    /** A column of words. */
    public static Column words(String title) {
        return new Column(title, false);
    }

    /** A column of figures. */
    public static Column figures(String title) {
        return new Column(title, true);
    }
}
