package chainage.page;

import chainage.quantity.Estimate;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How a chain grows with the distance it has run. Distances in the reader's unit, elongations in per cent.
 *
 * @param points by distance, the first where the chain was new
 * @param readings by distance
 * @param ridden distance up to now
 * @param now elongation now
 * @param left distance left to the limit; null when it is reached or the chain is condemned
 * @param limit at which the chain is to be replaced
 * @param unit of distances
 */
public record WearPlot(
        List<Point> points,
        List<MeasuredLength> readings,
        double ridden,
        Estimate now,
        @Nullable Estimate left,
        double limit,
        String unit) {
    public WearPlot {
        points = List.copyOf(points);
        readings = List.copyOf(readings);
    }

    /** Elongation expected after so much distance. */
    public record Point(double distance, double percent) {}

    /**
     * A reading.
     *
     * @param error half its 80 % interval; 0 for a gauge's edge
     * @param bound −1 when the chain is below it, 1 when above it, 0 when it is the length itself
     * @param tip its words
     */
    public record MeasuredLength(double distance, double percent, double error, int bound, String tip) {}

    /** The plot. */
    public Plot plot(String title, String caption) {
        return Plot.of(title, caption, this::draw);
    }

    private Drawing draw(int width) {
        boolean narrow = width < 500;
        double left0 = narrow ? 36 : 48;
        double bottom = narrow ? 128 : 230;
        double right = width - 8.0;
        double reach = left == null ? ridden * 1.15 : ridden + Math.min(left.high(), left.likely() * 1.6);
        Scale x = new Scale(0, Math.max(1, reach * 1.02), left0, right);
        Scale y = new Scale(0, Math.max(limit, now.high()) * 1.12, bottom, 20);
        List<Drawing.Shape> shapes = new ArrayList<>();
        shapes.addAll(y.rungs(narrow ? 4 : 5, left0, right));
        shapes.add(Drawing.label("axis", 0, 11, "start", "%"));
        fan(shapes, x, y);
        shapes.add(Drawing.line("limit", left0, y.at(limit), right, y.at(limit)));
        shapes.add(Drawing.label("axis", left0 + 4, y.at(limit) - 6, "start", "limit"));
        Trail trail = new Trail();
        points.forEach(p -> {
            if (trail.isEmpty()) {
                trail.move(x.at(p.distance()), y.at(p.percent()));
            } else {
                trail.line(x.at(p.distance()), y.at(p.percent()));
            }
        });
        shapes.add(Drawing.path("trace", trail.data()));
        readings.forEach(r -> reading(shapes, r, x, y));
        shapes.add(Drawing.line("range", x.at(ridden), y.at(now.low()), x.at(ridden), y.at(now.high())));
        shapes.add(Drawing.diamond("mark", x.at(ridden), y.at(now.likely()), 5.5, "now"));
        shapes.add(Drawing.line("rule", left0, bottom, right, bottom));
        for (Scale.Tick t : x.ticks(narrow ? 4 : 8)) {
            double tx = x.at(t.value());
            shapes.add(Drawing.line("notch", tx, bottom, tx, bottom + 4));
            boolean end = tx > width - 24;
            shapes.add(Drawing.label("axis", end ? width : tx, bottom + 18, end ? "end" : "middle", t.text()));
        }
        shapes.add(Drawing.label("axis", 0, bottom + 18, "start", unit));
        return new Drawing(width, (int) bottom + 24, shapes);
    }

    /** From the interval now to the limit: soonest, likely, latest. */
    private void fan(List<Drawing.Shape> shapes, Scale x, Scale y) {
        if (left == null) {
            return;
        }
        double end = x.high();
        double latest = ridden + left.high();
        double share = Math.min(1, (end - ridden) / Math.max(1e-9, latest - ridden));
        double last = now.low() + share * (limit - now.low());
        String area = "M" + at(x, y, ridden, now.high()) + "L" + at(x, y, ridden + left.low(), limit)
                + "L" + at(x, y, Math.min(end, latest), limit)
                + "L" + at(x, y, ridden + share * (latest - ridden), last)
                + "L" + at(x, y, ridden, now.low()) + "z";
        shapes.add(Drawing.path("band", area));
        shapes.add(Drawing.path(
                "ahead", "M" + at(x, y, ridden, now.likely()) + "L" + at(x, y, ridden + left.likely(), limit)));
    }

    private static String at(Scale x, Scale y, double distance, double percent) {
        return Drawing.px(x.at(distance)) + " " + Drawing.px(y.at(percent));
    }

    private static void reading(List<Drawing.Shape> shapes, MeasuredLength r, Scale x, Scale y) {
        double rx = x.at(r.distance());
        double ry = y.at(Math.max(0, r.percent()));
        if (r.bound() == 0) {
            shapes.add(Drawing.line(
                    "reading", rx, y.at(Math.max(0, r.percent() - r.error())), rx, y.at(r.percent() + r.error())));
            shapes.add(Drawing.dot("read", rx, ry, 4, r.tip()));
            return;
        }
        // A gauge bounds: a bar at its edge with an arrow to the side on which the chain lies.
        String arrow = r.bound() < 0 ? "m-5 0v14m-4 -5l4 5l4 -5" : "m-5 0v-14m-4 5l4 -5l4 5";
        shapes.add(
                new Drawing.Path("reading", "M" + Drawing.px(rx - 5) + " " + Drawing.px(ry) + "h10" + arrow, r.tip()));
    }
}
