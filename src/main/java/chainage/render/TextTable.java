package chainage.render;

import chainage.quantity.PlainText;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.IntFunction;

/** Rows in columns: text to the left, figures to the right, two spaces between, long names cut to fit a line. */
public final class TextTable {
    private static final int NARROWEST = 6;
    private static final int NOTE_INDENT = 4;

    private final List<String> heads = new ArrayList<>();
    private final List<Boolean> right = new ArrayList<>();
    private final List<Boolean> whole = new ArrayList<>();
    private final Set<Integer> wrapped = new HashSet<>();
    private final List<List<String>> rows = new ArrayList<>();
    private final Map<Integer, String> notes = new HashMap<>();
    private final Map<Integer, Set<Integer>> loud = new HashMap<>();

    /** A column of text, cut where the line would not fit. */
    public TextTable left(String head) {
        return column(head, false, false);
    }

    /** A column of text that is never cut, such as dates. */
    public TextTable whole(String head) {
        return column(head, false, true);
    }

    /** A column of figures, never cut. */
    public TextTable right(String head) {
        return column(head, true, true);
    }

    TextTable column(String head, Unit unit) {
        if (unit.wrapped()) {
            wrapped.add(heads.size());
        }
        return column(head, unit.figure(), unit.whole());
    }

    private TextTable column(String head, boolean toTheRight, boolean neverCut) {
        // A head of spaces is none: what stands below needs no name.
        heads.add(PlainText.marked(head.strip()));
        right.add(toTheRight);
        whole.add(neverCut);
        return this;
    }

    /** Adds a row; one cell a column. */
    public TextTable row(String... cells) {
        if (cells.length != heads.size()) {
            throw new IllegalArgumentException(cells.length + " cells for " + heads.size() + " columns");
        }
        List<String> safe = new ArrayList<>();
        for (String c : cells) {
            safe.add(PlainText.marked(c));
        }
        rows.add(safe);
        return this;
    }

    /** Lets a cell of the row added last stand out. */
    void loud(int column) {
        loud.computeIfAbsent(rows.size() - 1, r -> new HashSet<>()).add(column);
    }

    /** A line below the row added last, for what no column could hold. */
    public TextTable note(String text) {
        notes.put(rows.size() - 1, text);
        return this;
    }

    /**
     * Prints all rows.
     *
     * @param columns what the line must fit in; 0 for no limit
     */
    void print(Out out, int columns) {
        int[] widths = new int[heads.size()];
        for (int i = 0; i < widths.length; i++) {
            widths[i] = length(heads.get(i));
            for (List<String> row : rows) {
                widths[i] = Math.max(widths[i], length(row.get(i)));
            }
        }
        if (columns > 0) {
            shrink(widths, columns);
        }
        line(out, heads, widths, column -> Ink.FAINT);
        for (int i = 0; i < rows.size(); i++) {
            Set<Integer> outstanding = loud.getOrDefault(i, Set.of());
            for (List<String> line : lines(rows.get(i), widths)) {
                line(out, line, widths, column -> outstanding.contains(column) ? Ink.LOUD : Ink.PLAIN);
            }
            String note = notes.get(i);
            if (note != null) {
                out.line(NOTE_INDENT, note);
            }
        }
    }

    /** A row as lines: one, or more where a sentence does not fit its column. */
    private List<List<String>> lines(List<String> row, int[] widths) {
        List<List<String>> lines = new ArrayList<>(List.of(new ArrayList<>(row)));
        for (int column : wrapped) {
            int at = 0;
            int used = 0;
            StringBuilder line = new StringBuilder();
            for (String word : row.get(column).split(" ", -1)) {
                if (used > 0 && used + 1 + length(word) > widths[column]) {
                    set(lines, at++, column, line.toString());
                    line.setLength(0);
                    used = 0;
                }
                line.append(used == 0 ? "" : " ").append(word);
                used += (used == 0 ? 0 : 1) + length(word);
            }
            set(lines, at, column, line.toString());
        }
        return lines;
    }

    private void set(List<List<String>> lines, int at, int column, String text) {
        if (at == lines.size()) {
            lines.add(new ArrayList<>(Collections.nCopies(heads.size(), "")));
        }
        lines.get(at).set(column, text);
    }

    /** Takes from the widest text column until the line fits. */
    private void shrink(int[] widths, int columns) {
        while (total(widths) > columns) {
            int widest = -1;
            for (int i = 0; i < widths.length; i++) {
                if (!whole.get(i) && widths[i] > NARROWEST && (widest < 0 || widths[i] > widths[widest])) {
                    widest = i;
                }
            }
            if (widest < 0) {
                return;
            }
            widths[widest]--;
        }
    }

    private static int total(int[] widths) {
        int sum = 2 * (widths.length - 1);
        for (int w : widths) {
            sum += w;
        }
        return sum;
    }

    private static int length(String cell) {
        return Width.of(cell);
    }

    private void line(Out out, List<String> cells, int[] widths, IntFunction<Ink> inks) {
        StringBuilder b = new StringBuilder();
        int blank = 0;
        for (int i = 0; i < widths.length; i++) {
            String cell = cells.get(i);
            if (length(cell) > widths[i]) {
                cell = Width.cut(cell, widths[i] - 1) + "…";
            }
            int pad = widths[i] - length(cell);
            blank += (i == 0 ? 0 : 2) + (right.get(i) ? pad : 0);
            if (!cell.isEmpty()) {
                // No blanks at the end of a line.
                b.append(" ".repeat(blank)).append(out.inked(inks.apply(i), cell));
                blank = 0;
            }
            blank += right.get(i) ? 0 : pad;
        }
        out.row(b.toString());
    }
}
