package chainage.page;

import chainage.quantity.Estimate;
import java.util.ArrayList;
import java.util.List;

/**
 * What is missing behind a chain, by how much of a treatment's life was used. Shares of the life from 0, the rest in per
 * cent.
 *
 * @param points a ride each, by time
 * @param fitted what all rides say, by the share of the life, two or more
 * @param low end of the upright scale, shared by plots that are held against each other
 * @param high the other end
 */
public record RatioPlot(List<Point> points, List<Fitted> fitted, double low, double high) {
    public RatioPlot {
        points = List.copyOf(points);
        fitted = List.copyOf(fitted);
    }

    /**
     * A ride.
     *
     * @param tip its words
     */
    public record Point(double used, double percent, String tip) {}

    /** What all rides say of one share of the life, with its 80 % interval. */
    public record Fitted(double used, Estimate percent) {}

    /** The plot. */
    public Plot plot(String title, String caption) {
        return Plot.of(title, caption, this::draw);
    }

    private Drawing draw(int width) {
        boolean narrow = width < 500;
        double left = narrow ? 36 : 48;
        double bottom = narrow ? 128 : 190;
        double right = width - 8.0;
        Scale x = new Scale(0, 100 * fitted.get(fitted.size() - 1).used(), left, right);
        Scale y = new Scale(low, high, bottom, 20);
        List<Drawing.Shape> shapes = new ArrayList<>(y.rungs(narrow ? 4 : 5, left, right));
        shapes.add(Drawing.label("axis", 0, 11, "start", "%"));
        Trail band = new Trail();
        Trail middle = new Trail();
        for (Fitted f : fitted) {
            reach(band, x.at(100 * f.used()), y.at(f.percent().high()));
            reach(middle, x.at(100 * f.used()), y.at(f.percent().likely()));
        }
        for (int i = fitted.size() - 1; i >= 0; i--) {
            reach(
                    band,
                    x.at(100 * fitted.get(i).used()),
                    y.at(fitted.get(i).percent().low()));
        }
        shapes.add(Drawing.path("band", band.data() + "z"));
        shapes.add(Drawing.path("trace", middle.data()));
        for (Point p : points) {
            shapes.add(Drawing.dot("read", x.at(100 * p.used()), y.at(p.percent()), 4, p.tip()));
        }
        shapes.add(Drawing.line("rule", left, bottom, right, bottom));
        for (Scale.Tick t : x.ticks(narrow ? 4 : 8)) {
            double tx = x.at(t.value());
            shapes.add(Drawing.line("notch", tx, bottom, tx, bottom + 4));
            boolean end = tx > width - 24;
            shapes.add(Drawing.label("axis", end ? width : tx, bottom + 18, end ? "end" : "middle", t.text()));
        }
        return new Drawing(width, (int) bottom + 24, shapes);
    }

    private static void reach(Trail trail, double x, double y) {
        if (trail.isEmpty()) {
            trail.move(x, y);
        } else {
            trail.line(x, y);
        }
    }
}
