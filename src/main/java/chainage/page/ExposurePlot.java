package chainage.page;

import chainage.quantity.Estimate;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How far a chain's treatments were used up, ride by ride. Days are counted since 1970 with fractions, distances in the
 * reader's unit of dry clean road.
 *
 * @param intervals from one treatment to the next, by time; at least one
 * @param from the first day shown
 * @param now the last day known
 * @param due when the treatment will be used up; null when no date can be given or that day is past
 * @param unit of distances
 */
public record ExposurePlot(
        List<TreatmentInterval> intervals,
        double from,
        double now,
        @Nullable Estimate due,
        String unit) {
    public ExposurePlot {
        intervals = List.copyOf(intervals);
    }

    /**
     * The time under one treatment.
     *
     * @param from its day
     * @param to the day of the next, or now
     * @param treated false before the first treatment
     * @param product what was put on
     * @param life how long it lasts; null for an untreated chain
     * @param rides by time
     * @param noises days on which the chain was heard
     */
    public record TreatmentInterval(
            double from,
            double to,
            boolean treated,
            String product,
            @Nullable Estimate life,
            List<Ride> rides,
            List<Double> noises) {
        public TreatmentInterval {
            rides = List.copyOf(rides);
            noises = List.copyOf(noises);
        }

        /** Exposure at its end. */
        double used() {
            return rides.isEmpty() ? 0 : rides.get(rides.size() - 1).after();
        }
    }

    /**
     * A ride.
     *
     * @param day its start
     * @param after exposure since the treatment when it ended
     * @param wet share of it on a wet road
     * @param damp share of it on a damp one
     * @param grit 0 clean, 0.5 dusty, 1 gritty
     */
    public record Ride(double day, double after, double wet, double damp, double grit) {}

    /** The plot. */
    public Plot plot(String title, String caption) {
        return Plot.of(title, caption, this::draw);
    }

    private Drawing draw(int width) {
        boolean narrow = width < 500;
        double left = narrow ? 36 : 48;
        double bottom = narrow ? 126 : 206;
        double right = width - 8.0;
        double until = Math.max(now, due == null ? now : Math.min(due.high(), now + Math.max(28, (now - from) / 3)));
        Scale x = new Scale(from, Math.max(from + 7, until + (until - from) * 0.02), left, right);
        Scale y = new Scale(0, highest() * 1.08, bottom, 22);
        List<Drawing.Shape> shapes = new ArrayList<>();
        shapes.addAll(y.rungs(narrow ? 4 : 5, left, right));
        shapes.add(Drawing.label("axis", 0, 11, "start", unit));
        intervals.forEach(s -> life(shapes, s, x, y));
        intervals.forEach(s -> interval(shapes, s, x, y));
        forecast(shapes, x, y);
        strips(shapes, x, left, right, bottom);
        for (Scale.Tick t : x.days()) {
            shapes.add(Drawing.line("notch", x.at(t.value()), bottom, x.at(t.value()), bottom + 4));
            shapes.add(Drawing.label("axis", Math.min(x.at(t.value()), width - 12), bottom + 54, "middle", t.text()));
        }
        return new Drawing(width, (int) bottom + 60, shapes);
    }

    private double highest() {
        double most = 1;
        for (TreatmentInterval s : intervals) {
            if (s.to() >= from) {
                most = Math.max(most, s.used());
                most = Math.max(most, s.life() == null ? 0 : s.life().high());
            }
        }
        return most;
    }

    private void life(List<Drawing.Shape> shapes, TreatmentInterval s, Scale x, Scale y) {
        Estimate life = s.life();
        double end = s.to() == now && due != null ? x.high() : s.to();
        if (life == null || end <= from) {
            return;
        }
        double x1 = x.at(s.from());
        double x2 = x.at(end);
        shapes.add(Drawing.box("band", x1, y.at(life.high()), x2 - x1, y.at(life.low()) - y.at(life.high()), ""));
        shapes.add(Drawing.line("likely", x1, y.at(life.likely()), x2, y.at(life.likely())));
    }

    private void interval(List<Drawing.Shape> shapes, TreatmentInterval s, Scale x, Scale y) {
        if (s.to() < from) {
            return;
        }
        Trail trail = new Trail();
        double used = 0;
        for (Ride r : s.rides()) {
            if (r.day() < from) {
                used = r.after();
            }
        }
        trail.move(x.at(s.from()), y.at(used));
        for (Ride r : s.rides()) {
            if (r.day() >= from) {
                trail.line(x.at(r.day()), y.at(used)).line(x.at(r.day()), y.at(r.after()));
                used = r.after();
            }
        }
        trail.line(x.at(s.to()), y.at(used));
        shapes.add(Drawing.path("trace", trail.data()));
        if (s.treated() && s.from() >= from) {
            double tx = x.at(s.from());
            shapes.add(Drawing.line("treated", tx, 22, tx, y.from()));
            shapes.add(new Drawing.Path("treatmark", "M" + Drawing.px(tx - 4) + " 14h8l-4 8z", s.product()));
        }
        for (double day : s.noises()) {
            if (day >= from) {
                double at = 0;
                for (Ride r : s.rides()) {
                    at = r.day() <= day ? r.after() : at;
                }
                double nx = x.at(day);
                double ny = y.at(at);
                shapes.add(new Drawing.Path(
                        "noise", "M" + Drawing.px(nx - 4) + " " + Drawing.px(ny - 4) + "l8 8m0 -8l-8 8", "heard"));
            }
        }
    }

    private void forecast(List<Drawing.Shape> shapes, Scale x, Scale y) {
        TreatmentInterval last = intervals.get(intervals.size() - 1);
        Estimate life = last.life();
        if (due == null || life == null) {
            return;
        }
        double share = Math.min(1, (x.high() - now) / Math.max(1e-9, due.likely() - now));
        shapes.add(Drawing.line(
                "ahead",
                x.at(now),
                y.at(last.used()),
                x.at(now + share * (due.likely() - now)),
                y.at(last.used() + share * (life.likely() - last.used()))));
        shapes.add(Drawing.line("range", x.at(due.low()), y.at(life.likely()), x.at(due.high()), y.at(life.likely())));
        if (due.likely() <= x.high()) {
            shapes.add(Drawing.dot("mark", x.at(due.likely()), y.at(life.likely()), 4.5, "likely used up"));
        }
    }

    /** Below the rule: how wet and how gritty each ride was, as strokes of that height. */
    private void strips(List<Drawing.Shape> shapes, Scale x, double left, double right, double bottom) {
        shapes.add(Drawing.line("rule", left, bottom, right, bottom));
        double wetBase = bottom + 20;
        double gritBase = bottom + 36;
        shapes.add(Drawing.line("grid", left, wetBase, right, wetBase));
        shapes.add(Drawing.line("grid", left, gritBase, right, gritBase));
        shapes.add(Drawing.label("axis", left - 6, wetBase, "end", "wet"));
        shapes.add(Drawing.label("axis", left - 6, gritBase, "end", "grit"));
        Strokes wet = new Strokes();
        Strokes damp = new Strokes();
        Strokes grit = new Strokes();
        for (TreatmentInterval s : intervals) {
            for (Ride r : s.rides()) {
                if (r.day() >= from) {
                    wet.up(x.at(r.day()), wetBase, 13 * r.wet());
                    damp.up(x.at(r.day()), wetBase - 13 * r.wet(), 13 * r.damp());
                    grit.up(x.at(r.day()), gritBase, 13 * r.grit());
                }
            }
        }
        wet.draw(shapes, "wetstroke");
        damp.draw(shapes, "dampstroke");
        grit.draw(shapes, "gritstroke");
    }

    /** Upright strokes of one look. */
    private static final class Strokes {
        private final StringBuilder data = new StringBuilder();

        void up(double x, double base, double height) {
            if (height > 0) {
                data.append('M').append(Drawing.px(x)).append(' ').append(Drawing.px(base));
                data.append('v').append(Drawing.px(-Math.max(1, height)));
            }
        }

        void draw(List<Drawing.Shape> shapes, String look) {
            if (!data.isEmpty()) {
                shapes.add(Drawing.path(look, data.toString()));
            }
        }
    }
}
