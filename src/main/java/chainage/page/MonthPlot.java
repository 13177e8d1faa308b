package chainage.page;

import java.util.ArrayList;
import java.util.List;

/**
 * Distance a month by the road's condition, as bars whose hatching tells them apart without colour.
 *
 * @param months by time, without gaps
 * @param unit of distances
 */
public record MonthPlot(List<Month> months, String unit) {
    private static final int MOST_WIDE = 24;
    private static final int MOST_NARROW = 9;

    public MonthPlot {
        months = List.copyOf(months);
    }

    /**
     * A month. Indoor, dry, damp and wet add up to all of it; dusty and gritty are shares of the same distance.
     *
     * @param name year and month, such as {@code 2026-03}
     */
    public record Month(String name, double indoor, double dry, double damp, double wet, double dusty, double gritty) {
        public double all() {
            return indoor + dry + damp + wet;
        }
    }

    /** The plot. */
    public Plot plot(String title, String caption) {
        return Plot.of(title, caption, this::draw);
    }

    private Drawing draw(int width) {
        boolean narrow = width < 500;
        List<Month> shown =
                months.subList(Math.max(0, months.size() - (narrow ? MOST_NARROW : MOST_WIDE)), months.size());
        double left = narrow ? 36 : 48;
        double right = width - 8.0;
        double top = narrow ? 54 : 38;
        double bottom = top + (narrow ? 92 : 160);
        double most = shown.stream().mapToDouble(Month::all).max().orElse(0);
        Scale y = new Scale(0, Math.max(1, most * 1.12), bottom, top);
        List<Drawing.Shape> shapes = new ArrayList<>();
        legend(shapes, narrow);
        shapes.addAll(y.rungs(4, left, right));
        double slot = (right - left) / Math.max(6, shown.size());
        for (int i = 0; i < shown.size(); i++) {
            Month m = shown.get(i);
            double x = left + (i + 0.14) * slot;
            double base = bar(shapes, "dry", x, 0.5 * slot, 0, m.dry(), y, m.name() + ", dry");
            base = bar(shapes, "indoor", x, 0.5 * slot, base, m.indoor(), y, m.name() + ", indoor");
            base = bar(shapes, "damp", x, 0.5 * slot, base, m.damp(), y, m.name() + ", damp");
            bar(shapes, "wet", x, 0.5 * slot, base, m.wet(), y, m.name() + ", wet");
            double thin = x + 0.55 * slot;
            base = bar(shapes, "dusty", thin, 0.2 * slot, 0, m.dusty(), y, m.name() + ", dusty");
            bar(shapes, "gritty", thin, 0.2 * slot, base, m.gritty(), y, m.name() + ", gritty");
            shapes.add(Drawing.label("axis", x + 0.36 * slot, bottom + 16, "middle", label(m.name(), i)));
        }
        shapes.add(Drawing.line("rule", left, bottom, right, bottom));
        shapes.add(Drawing.label("axis", left - 6, top - 8, "end", unit));
        return new Drawing(width, (int) bottom + 22, shapes);
    }

    private static String label(String name, int i) {
        boolean year = i == 0 || name.endsWith("-01");
        return year ? name.substring(2, 4) + "/" + name.substring(5) : name.substring(5);
    }

    /** One part of a bar; returns where the next one begins. */
    private static double bar(
            List<Drawing.Shape> shapes,
            String look,
            double x,
            double width,
            double base,
            double value,
            Scale y,
            String tip) {
        if (value <= 0) {
            return base;
        }
        double high = y.at(base + value);
        shapes.add(Drawing.box("bar " + look, x, high, width, y.at(base) - high, tip));
        return base + value;
    }

    private static void legend(List<Drawing.Shape> shapes, boolean narrow) {
        String[] looks = {"dry", "indoor", "damp", "wet", "dusty", "gritty"};
        for (int i = 0; i < looks.length; i++) {
            double x = narrow ? 40 + i % 3 * 88 : 60 + i * 90;
            double y = narrow && i > 2 ? 20 : 2;
            shapes.add(Drawing.box("bar " + looks[i], x, y, 16, 12, ""));
            shapes.add(Drawing.label("axis", x + 22, y + 11, "start", looks[i]));
        }
    }
}
