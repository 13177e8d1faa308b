package chainage.page;

import java.util.List;

/**
 * A table; the first cell of each row names it.
 *
 * @param caption what it shows
 * @param columns one to eight
 * @param rows as many cells each as there are columns
 * @param sortable whether the reader may sort it, which wants plain figures without units in numeric columns
 */
public record Grid(String caption, List<Column> columns, List<List<Cell>> rows, boolean sortable) {
    /** As many columns as the style sheet knows. */
    private static final int WIDEST = 8;

    public Grid {
        columns = List.copyOf(columns);
        rows = List.copyOf(rows);
        int width = columns.size();
        if (columns.isEmpty() || width > WIDEST || rows.stream().anyMatch(r -> r.size() != width)) {
            throw new IllegalArgumentException("ragged or wide table: " + caption);
        }
    }

    /**
     * Its classes: {@code n3} says that the third column has figures. Said once and not in each cell, since a page may
     * have ten thousand rows.
     */
    public String looks() {
        StringBuilder looks = new StringBuilder(sortable ? "sortable" : "plain");
        for (int i = 0; i < columns.size(); i++) {
            if (columns.get(i).numeric()) {
                looks.append(" n").append(i + 1);
            }
        }
        return looks.toString();
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
