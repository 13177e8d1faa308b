package chainage.page;

import chainage.quantity.Estimate;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Estimates under each other on one rule, each a point with its interval: the page's tape measure.
 *
 * @param rows from the top
 * @param high end of the rule, which begins at {@code low}; what lies beyond is drawn at its end
 * @param limit a line across all rows; null for none
 * @param dates true when values are days since 1970
 * @param unit behind the figures of the rule
 */
public record RowPlot(
        List<Row> rows, double low, double high, @Nullable Double limit, String limitName, boolean dates, String unit) {
    public RowPlot {
        rows = List.copyOf(rows);
    }

    /**
     * One row.
     *
     * @param label what it is
     * @param note the figure in words
     * @param marks at most one above and one below the rule
     * @param others rings below the rule, of the same thing with others
     */
    public record Row(String label, String note, List<Mark> marks, List<Ring> others) {
        public Row {
            marks = List.copyOf(marks);
            others = List.copyOf(others);
        }

        public Row(String label, String note, List<Mark> marks) {
            this(label, note, marks, List.of());
        }
    }

    /** A value alone. */
    public record Ring(double at, String tip) {}

    /**
     * A point with its interval.
     *
     * @param below a diamond below the rule, else a circle above it
     * @param tip what it says when pointed at
     */
    public record Mark(boolean below, Estimate at, String tip) {}

    /** The plot. */
    public Plot plot(String title, String caption) {
        return Plot.of(title, caption, this::draw);
    }

    private Drawing draw(int width) {
        boolean narrow = width < 500;
        double rowHeight = narrow ? 42 : 38;
        double top = 22;
        double left = narrow ? 4 : 168;
        double right = narrow ? width - 8 : width - 92;
        Scale x = new Scale(low, high, left, right);
        List<Scale.Tick> ticks = dates ? x.days() : x.ticks(narrow ? 3 : 8);
        double bottom = top + rows.size() * rowHeight;
        List<Drawing.Shape> shapes = new ArrayList<>();
        if (limit != null) {
            shapes.add(Drawing.line("limit", x.at(limit), top - 6, x.at(limit), bottom));
            boolean end = x.at(limit) > width - 60;
            shapes.add(Drawing.label("axis", x.at(limit), top - 10, end ? "end" : "middle", limitName));
        }
        for (int i = 0; i < rows.size(); i++) {
            double y = top + i * rowHeight + (narrow ? 30 : 20);
            row(shapes, rows.get(i), x, ticks, y, narrow, width);
        }
        for (Scale.Tick t : ticks) {
            boolean last = x.at(t.value()) > width - 20;
            shapes.add(Drawing.label("axis", x.at(t.value()), bottom + 16, last ? "end" : "middle", t.text() + unit));
        }
        return new Drawing(width, (int) bottom + 24, shapes);
    }

    private void row(
            List<Drawing.Shape> shapes, Row row, Scale x, List<Scale.Tick> ticks, double y, boolean narrow, int width) {
        shapes.add(
                narrow
                        ? Drawing.label("name", 0, y - 17, "start", cut(row.label(), 26))
                        : Drawing.label("name", 156, y + 5, "end", cut(row.label(), 21)));
        shapes.add(Drawing.label("value", width, narrow ? y - 17 : y + 5, "end", row.note()));
        shapes.add(Drawing.line("rule", x.from(), y, x.to(), y));
        StringBuilder notches = new StringBuilder();
        ticks.forEach(t -> notches.append(Drawing.line("notch", x.at(t.value()), y - 3, x.at(t.value()), y + 3)
                .d()));
        shapes.add(Drawing.path("notch", notches.toString()));
        for (Ring r : row.others()) {
            shapes.add(Drawing.dot("read", x.at(r.at()), y + 8, 3, r.tip()));
        }
        for (Mark m : row.marks()) {
            double my = y + (m.below() ? 6 : -6);
            shapes.add(Drawing.line("range", x.at(m.at().low()), my, x.at(m.at().high()), my));
            double mx = x.at(m.at().likely());
            shapes.add(
                    m.below()
                            ? Drawing.diamond("mark", mx, my, 5.5, m.tip())
                            : Drawing.dot("mark", mx, my, 4.5, m.tip()));
        }
    }

    private static String cut(String text, int most) {
        return text.codePointCount(0, text.length()) <= most
                ? text
                : text.substring(0, text.offsetByCodePoints(0, most - 1)) + "…";
    }
}
