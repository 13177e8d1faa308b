package chainage.answer.page;

import chainage.analysis.Analysis;
import chainage.answer.ReadingWords;
import chainage.exposure.ChainExposure;
import chainage.exposure.RideExposure;
import chainage.inference.Normal;
import chainage.ledger.Event;
import chainage.ledger.Grit;
import chainage.ledger.Reading;
import chainage.ledger.Remark;
import chainage.page.Block;
import chainage.page.ExposurePlot;
import chainage.page.Plot;
import chainage.page.WearPlot;
import chainage.quantity.Estimate;
import chainage.render.Formatter;
import chainage.standing.Dates;
import chainage.standing.Standing;
import chainage.wear.WearStanding;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** The two plots of a chain: the use of its treatments over time, and its elongation over distance. */
final class ChainPlots {
    /** How to read them, said once for all chains. */
    static final Block KEY = new Block.Fold(
            "How to read the plots",
            List.of(
                    Block.note(
                            "Treatments: each ride lifts the line by the distance it counts. ▾ is a treatment, where the"
                                    + " line starts again at 0; a cross is a noise that you noted. The tinted band is the 80 %"
                                    + " interval of the treatment's life, the dotted line its likely end, the dashed line the way"
                                    + " there. The strokes below show how wet and how gritty each ride was."),
                    Block.note("Elongation: the line is what the rides likely did, at the wear rate learnt from your"
                            + " readings. A circle with a bar is a reading; an arrow shows on which side of a gauge's edge"
                            + " the chain was. The diamond is the elongation now; the tinted area shows how it goes on to"
                            + " the limit. Below the plot: the elongation, its 80 % interval, and the likely distance"
                            + " left to the limit.")));

    /** So many days of exposure are drawn, and all of the treatment in force; the table of rides has them all. */
    private static final double DAYS_DRAWN = 365;

    private final Analysis analysis;
    private final Formatter format;
    private final Standing s;
    private final ChainExposure exposure;

    ChainPlots(Analysis analysis, Formatter format, Standing s) {
        this.analysis = analysis;
        this.format = format;
        this.s = s;
        this.exposure = s.exposure();
    }

    Plot exposure() {
        double now = format.day(analysis.at());
        List<Event.Treated> treatments = analysis.ledger().treatments(s.chain());
        double first = format.day(exposure.rides().get(0).start());
        Instant treated = exposure.treatedAt();
        double start = Math.max(
                treatments.isEmpty()
                        ? first
                        : Math.min(first, format.day(treatments.get(0).at())),
                Math.min(now - DAYS_DRAWN, treated == null ? now : format.day(treated)));
        List<ExposurePlot.TreatmentInterval> intervals = new ArrayList<>();
        if (treatments.isEmpty() || first < format.day(treatments.get(0).at())) {
            intervals.add(interval(null, treatments.isEmpty() ? null : treatments.get(0)));
        }
        for (int i = 0; i < treatments.size(); i++) {
            intervals.add(interval(treatments.get(i), i + 1 < treatments.size() ? treatments.get(i + 1) : null));
        }
        Dates d = s.treatBy();
        Estimate due = d == null || s.treatment().used() >= 1
                ? null
                : new Estimate(format.day(d.low()), format.day(d.likely()), format.day(d.high()));
        long wet = exposure.rides().stream()
                .filter(r -> r.condition().wetShare() > 0)
                .count();
        long gritty = exposure.rides().stream()
                .filter(r -> r.condition().grit() == Grit.GRITTY)
                .count();
        return new ExposurePlot(intervals, start, now, due, format.unit())
                .plot(
                        "Use of each treatment of " + s.chain() + ": "
                                + Formatter.count(treatments.size(), "treatment", "treatments") + ", "
                                + Formatter.count(wet, "wet ride", "wet rides") + ", "
                                + Formatter.count(gritty, "gritty one", "gritty ones"),
                        "Treatments, " + format.unit() + " of dry, clean road: now "
                                + format.distance(s.treatment().exposureMetres())
                                + (due == null || d == null ? "." : ", due about " + format.date(d.likely()) + ".")
                                + (start > first ? " What was before is not drawn." : ""));
    }

    private ExposurePlot.TreatmentInterval interval(Event.@Nullable Treated treated, Event.@Nullable Treated next) {
        Instant from = treated == null ? null : treated.at();
        Instant to = next == null ? null : next.at();
        List<ExposurePlot.Ride> rides = new ArrayList<>();
        double after = 0;
        Instant first = analysis.at();
        String product = treated == null ? exposure.product().product() : treated.product();
        Estimate life = analysis.ledger()
                .product(product)
                .map(p -> analysis.lives().of(p))
                .orElse(null);
        for (RideExposure r : exposure.rides()) {
            boolean here = from == null ? r.treatedAt() == null : from.equals(r.treatedAt());
            if (here) {
                after += r.treatmentMetres();
                Instant start = r.start();
                first = rides.isEmpty() ? start : first;
                life = analysis.lives().of(r.product());
                rides.add(new ExposurePlot.Ride(
                        format.day(start),
                        format.ofMetres(after),
                        r.condition().wetShare(),
                        r.condition().dampShare(),
                        grit(r.condition().grit())));
            }
        }
        List<Double> noises = analysis.ledger().remarks(s.chain()).stream()
                .filter(r -> r.remark() == Remark.NOISY)
                .map(Event.Remarked::at)
                .filter(t -> (from == null || !t.isBefore(from)) && (to == null || t.isBefore(to)))
                .map(format::day)
                .toList();
        return new ExposurePlot.TreatmentInterval(
                format.day(from == null ? first : from),
                format.day(to == null ? analysis.at() : to),
                treated != null,
                product,
                life == null ? null : format.ofMetres(inForce(next, life)),
                rides,
                noises);
    }

    /** Of the treatment in force, what its own limit goes by. */
    private Estimate inForce(Event.@Nullable Treated next, Estimate life) {
        Estimate own = s.treatment().lifeMetres();
        return next == null && own != null ? own : life;
    }

    private static double grit(Grit grit) {
        return switch (grit) {
            case CLEAN -> 0;
            case DUSTY -> 0.5;
            case GRITTY -> 1;
        };
    }

    Plot wear() {
        WearStanding wear = s.wear();
        List<WearPlot.Point> points = new ArrayList<>();
        List<WearPlot.MeasuredLength> readings = new ArrayList<>();
        double metres = 0;
        // As fast as this chain likely wears, and through where it likely is now.
        double pace = wear.elongation().pace().likely();
        double percent = wear.elongationPercent().likely() - pace * wear.expectedPercent();
        points.add(new WearPlot.Point(0, percent));
        for (RideExposure r : exposure.rides()) {
            metres += r.metres().metres();
            percent += pace * r.elongationPercent();
            points.add(new WearPlot.Point(format.ofMetres(metres), percent));
        }
        for (Event.Measured m : analysis.ledger().readings(s.chain())) {
            double at = exposure.riddenMetres(m.at());
            String tip = ReadingWords.of(m.reading()) + ", " + format.date(m.at());
            if (m.reading() instanceof Reading.Elongation e) {
                readings.add(new WearPlot.MeasuredLength(
                        format.ofMetres(at), e.percent(), Normal.Z90 * e.errorPercent(), 0, tip));
            } else if (m.reading() instanceof Reading.Gauge g) {
                readings.add(
                        new WearPlot.MeasuredLength(format.ofMetres(at), g.edgePercent(), 0, g.drops() ? 1 : -1, tip));
            }
        }
        Estimate worn = wear.elongationPercent();
        Estimate left = wear.used() >= 1 ? null : format.ofMetres(wear.leftMetres());
        return new WearPlot(points, readings, format.ofMetres(metres), worn, left, wear.limitPercent(), format.unit())
                .plot(
                        "Elongation of " + s.chain(),
                        "Elongation " + Formatter.elongation(worn.likely()) + " % ("
                                + Formatter.elongation(worn.low()) + "–" + Formatter.elongation(worn.high()) + "), "
                                + (left == null
                                        ? "at its limit."
                                        : format.distance(wear.leftMetres().likely()) + " left."));
    }
}
