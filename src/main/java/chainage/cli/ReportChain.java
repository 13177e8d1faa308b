package chainage.cli;

import chainage.exposure.ChainExposure;
import chainage.exposure.RideExposure;
import chainage.inference.Normal;
import chainage.ledger.Event;
import chainage.ledger.Grit;
import chainage.ledger.Reading;
import chainage.ledger.Remark;
import chainage.page.Block;
import chainage.page.Cell;
import chainage.page.ExposurePlot;
import chainage.page.Grid;
import chainage.page.Page;
import chainage.page.Plot;
import chainage.page.WearPlot;
import chainage.quantity.Estimate;
import chainage.standing.Dates;
import chainage.standing.Standing;
import chainage.wear.WearStanding;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** One chain on the page: its figures, its two plots, what was done to it, its rides. */
final class ReportChain {
    /** So many days of exposure are drawn; the table of rides has them all. */
    private static final double DAYS_DRAWN = 365;
    /** Longer titles are cut, so that ten thousand of them still make a page. */
    private static final int TITLE = 48;

    private final Picture picture;
    private final Words words;
    private final Standing s;
    private final ChainExposure exposure;

    ReportChain(Picture picture, Words words, Standing s) {
        this.picture = picture;
        this.words = words;
        this.s = s;
        this.exposure = s.exposure();
    }

    Page.Section section(String id, String advice) {
        List<Block> blocks = new ArrayList<>();
        blocks.add(new Block.Words(Block.Tone.ADVICE, advice));
        blocks.add(new Block.Table(figures()));
        if (!exposure.rides().isEmpty()) {
            blocks.add(new Block.Figure(exposurePlot()));
            blocks.add(new Block.Figure(wearPlot()));
        }
        Grid done = done();
        if (!done.rows().isEmpty()) {
            blocks.add(new Block.Table(done));
        }
        if (!exposure.rides().isEmpty()) {
            blocks.add(new Block.Fold(
                    Words.count(exposure.rides().size(), "ride", "rides") + ", "
                            + words.distance(exposure.riddenMetres()),
                    List.of(new Block.Table(rides()))));
        }
        blocks.add(new Block.Fold(
                "Why: what these figures rest on",
                List.of(new Block.Lines(WhyText.lines(picture, s, words).stream()
                        .map(String::strip)
                        .map(Words::safe)
                        .toList()))));
        String place = s.bike() == null ? "on the shelf" : "on " + Words.safe(String.valueOf(s.bike()));
        String treated = exposure.treatedAt() == null
                ? "never treated, as far as noted"
                : Words.safe(exposure.product().product()) + " since " + words.date(exposure.treatedAt());
        return new Page.Section(id, Words.safe(s.chain()), place + "; " + treated, blocks);
    }

    private Grid figures() {
        List<List<Cell>> rows = new ArrayList<>();
        rows.add(one("Ridden in all", metres(exposure.riddenMetres())));
        rows.add(one("Ridden since its treatment", metres(exposure.metresSinceTreatment())));
        rows.add(one("The same as dry, clean road", metres(s.treatment().exposureMetres())));
        Estimate life = s.treatment().lifeMetres();
        rows.add(life == null ? one("Life of the treatment", Cell.NONE) : three("Life of the treatment", metres(life)));
        rows.add(one("Treatment used", share(s.treatment().used())));
        rows.add(three("Treatment left", metres(s.treatment().leftMetres())));
        rows.add(dates("Treat on", s.treatOn()));
        WearStanding wear = s.wear();
        Estimate worn = wear.elongationPercent();
        rows.add(three("Elongation", List.of(percent(worn.low()), percent(worn.likely()), percent(worn.high()))));
        rows.add(one("Elongation limit", percent(wear.limitPercent())));
        rows.add(one("Limit reached to", share(wear.used())));
        rows.add(three("Left to the limit", metres(wear.leftMetres())));
        rows.add(dates("Replace on", s.replaceOn()));
        return new Grid(
                "Where " + Words.safe(s.chain()) + " stands",
                List.of(Grid.words("Figure"), Grid.figures("low"), Grid.figures("likely"), Grid.figures("high")),
                rows,
                false);
    }

    private static List<Cell> one(String name, Cell value) {
        return List.of(Cell.of(name), Cell.of(""), value, Cell.of(""));
    }

    private static List<Cell> three(String name, List<Cell> values) {
        List<Cell> row = new ArrayList<>(List.of(Cell.of(name)));
        row.addAll(values);
        return row;
    }

    private List<Cell> dates(String name, @Nullable Dates d) {
        return d == null
                ? one(name, Cell.NONE)
                : three(name, List.of(words.cell(d.low()), words.cell(d.likely()), words.cell(d.high())));
    }

    private Cell metres(double metres) {
        return Cell.figure(words.distance(metres).replace("-", "−"), metres, 1);
    }

    private List<Cell> metres(Estimate e) {
        return List.of(metres(e.low()), metres(e.likely()), metres(e.high()));
    }

    private static Cell share(double share) {
        return Cell.figure(Words.percent(share), share, 4);
    }

    private static Cell percent(double percent) {
        return Cell.figure(Words.elongation(percent) + " %", percent, 4);
    }

    private Plot exposurePlot() {
        double now = words.day(picture.at());
        List<Event.Treated> treatments = picture.ledger().treatments(s.chain());
        double first = words.day(exposure.rides().get(0).ride().filed().ride().start());
        double start = Math.max(
                treatments.isEmpty()
                        ? first
                        : Math.min(first, words.day(treatments.get(0).at())),
                now - DAYS_DRAWN);
        List<ExposurePlot.Spell> spells = new ArrayList<>();
        if (treatments.isEmpty() || first < words.day(treatments.get(0).at())) {
            spells.add(spell(null, treatments.isEmpty() ? null : treatments.get(0)));
        }
        for (int i = 0; i < treatments.size(); i++) {
            spells.add(spell(treatments.get(i), i + 1 < treatments.size() ? treatments.get(i + 1) : null));
        }
        Dates d = s.treatOn();
        Estimate due = d == null || s.treatment().used() >= 1
                ? null
                : new Estimate(words.day(d.low()), words.day(d.likely()), words.day(d.high()));
        long wet = exposure.rides().stream()
                .filter(r -> r.condition().wetShare() > 0)
                .count();
        long gritty = exposure.rides().stream()
                .filter(r -> r.condition().grit() == Grit.GRITTY)
                .count();
        return new ExposurePlot(spells, start, now, due, words.unit())
                .plot(
                        "Use of each treatment of " + Words.safe(s.chain()),
                        "How far each treatment was used up, in " + words.unit()
                                + " of dry, clean road: every ride lifts the line by what it counts, a treatment (▾) lets"
                                + " it fall to nothing, a cross marks where you heard the chain. The tinted band is the"
                                + " 80 % interval of the treatment's life, its dotted line the likely one"
                                + (due == null ? "" : ", the dashed line the way there")
                                + ". Strokes at the foot: how wet and how gritty each ride was. In all "
                                + Words.count(treatments.size(), "treatment", "treatments") + ", "
                                + Words.count(wet, "wet ride", "wet rides") + ", "
                                + Words.count(gritty, "gritty one", "gritty ones") + "; now at "
                                + words.distance(s.treatment().exposureMetres()) + "."
                                + (start > first ? " The last twelve months are drawn." : ""));
    }

    private ExposurePlot.Spell spell(Event.@Nullable Treated treated, Event.@Nullable Treated next) {
        Instant from = treated == null ? null : treated.at();
        Instant to = next == null ? null : next.at();
        List<ExposurePlot.Ride> rides = new ArrayList<>();
        double after = 0;
        Instant first = picture.at();
        String product = treated == null ? exposure.product().product() : treated.product();
        Estimate life = picture.ledger()
                .product(product)
                .map(p -> picture.factors().lifeMetres(p.method()))
                .orElse(null);
        for (RideExposure r : exposure.rides()) {
            boolean here = from == null ? r.treatedAt() == null : from.equals(r.treatedAt());
            if (here) {
                after += r.treatmentMetres();
                Instant start = r.ride().filed().ride().start();
                first = rides.isEmpty() ? start : first;
                life = picture.factors().lifeMetres(r.product().method());
                rides.add(new ExposurePlot.Ride(
                        words.day(start),
                        words.ofMetres(after),
                        r.condition().wetShare(),
                        r.condition().dampShare(),
                        grit(r.condition().grit())));
            }
        }
        List<Double> noises = picture.ledger().remarks(s.chain()).stream()
                .filter(r -> r.remark() == Remark.NOISY)
                .map(Event.Remarked::at)
                .filter(t -> (from == null || !t.isBefore(from)) && (to == null || t.isBefore(to)))
                .map(words::day)
                .toList();
        return new ExposurePlot.Spell(
                words.day(from == null ? first : from),
                words.day(to == null ? picture.at() : to),
                treated != null,
                Words.safe(product),
                life == null ? null : shown(life),
                rides,
                noises);
    }

    private static double grit(Grit grit) {
        return switch (grit) {
            case CLEAN -> 0;
            case DUSTY -> 0.5;
            case GRITTY -> 1;
        };
    }

    private Estimate shown(Estimate metres) {
        return new Estimate(
                words.ofMetres(metres.low()), words.ofMetres(metres.likely()), words.ofMetres(metres.high()));
    }

    private Plot wearPlot() {
        WearStanding wear = s.wear();
        List<WearPlot.Point> points = new ArrayList<>();
        List<WearPlot.Reading> readings = new ArrayList<>();
        points.add(new WearPlot.Point(0, 0));
        double metres = 0;
        double percent = 0;
        for (RideExposure r : exposure.rides()) {
            metres += r.metres().metres();
            percent += r.elongationPercent();
            points.add(new WearPlot.Point(words.ofMetres(metres), percent));
        }
        for (Event.Measured m : picture.ledger().readings(s.chain())) {
            double at = exposure.rides().stream()
                    .filter(r -> r.ride().filed().ride().start().isBefore(m.at()))
                    .mapToDouble(r -> r.metres().metres())
                    .sum();
            String tip = ReadingWords.of(m.reading()) + ", " + words.date(m.at());
            if (m.reading() instanceof Reading.Elongation e) {
                readings.add(new WearPlot.Reading(words.ofMetres(at), e.percent(), Normal.Z90 * e.errorPercent(), 0, tip));
            } else if (m.reading() instanceof Reading.Gauge g) {
                readings.add(new WearPlot.Reading(words.ofMetres(at), g.edgePercent(), 0, g.drops() ? 1 : -1, tip));
            }
        }
        Estimate worn = wear.elongationPercent();
        Estimate left = wear.used() >= 1 ? null : shown(wear.leftMetres());
        return new WearPlot(points, readings, words.ofMetres(metres), worn, left, wear.limitPercent(), words.unit())
                .plot(
                        "Elongation of " + Words.safe(s.chain()),
                        "Elongation in per cent by distance run. The line is what the table of rates expects of these"
                                + " rides from new; circles with bars are readings, arrows say on which side of a"
                                + " gauge's edge it lay. The diamond is the elongation now, "
                                + Words.elongation(worn.likely()) + " % (80 % between " + Words.elongation(worn.low())
                                + " and " + Words.elongation(worn.high()) + " %)"
                                + (left == null
                                        ? "; nothing is left to the limit."
                                        : "; the tinted fan leads from its interval to the limit of "
                                                + Words.elongation(wear.limitPercent()) + " %, likely "
                                                + words.distance(
                                                        wear.leftMetres().likely()) + " from here."));
    }

    /** Treatments, readings and remarks, by time. */
    private Grid done() {
        record Line(Instant at, String what, String how) {}
        List<Line> lines = new ArrayList<>();
        picture.ledger()
                .treatments(s.chain())
                .forEach(t -> lines.add(new Line(
                        t.at(),
                        "treated",
                        t.product() + ", cleaning " + t.cleaning().word()
                                + (t.millilitres() == null ? "" : ", " + Words.number(t.millilitres()) + " ml")
                                + (t.minutes() == null ? "" : ", " + Words.number(t.minutes()) + " minutes"))));
        picture.ledger()
                .readings(s.chain())
                .forEach(m -> lines.add(new Line(m.at(), "measured", ReadingWords.of(m.reading()))));
        picture.ledger()
                .remarks(s.chain())
                .forEach(r -> lines.add(new Line(r.at(), r.remark().word(), r.words())));
        lines.sort(Comparator.comparing(Line::at));
        List<List<Cell>> rows = new ArrayList<>();
        lines.forEach(l -> rows.add(List.of(words.cell(l.at()), Cell.of(l.what()), Cell.foreign(Words.safe(l.how())))));
        return new Grid(
                "What was done to " + Words.safe(s.chain()) + ", and what was seen",
                List.of(Grid.words("Day"), Grid.words("What"), Grid.words("How")),
                rows,
                false);
    }

    private Grid rides() {
        List<List<Cell>> rows = new ArrayList<>();
        for (RideExposure r : exposure.rides()) {
            rows.add(List.of(
                    Cell.of(words.time(r.ride().filed().ride().start())),
                    Cell.of(words.plain(r.metres().metres())),
                    Cell.of(WhyText.road(r.condition())),
                    Cell.of(Words.twoDecimals(r.treatmentFactor())),
                    Cell.of(words.plain(r.treatmentMetres())),
                    Cell.foreign(title(r.ride().filed().ride().labels().title())),
                    Cell.of(r.ride().id())));
        }
        return new Grid(
                "Rides on " + Words.safe(s.chain()) + ", distances in " + words.unit(),
                List.of(
                        Grid.words("Start"),
                        Grid.figures("Ridden"),
                        Grid.words("Road"),
                        Grid.figures("Times"),
                        Grid.figures("Counts"),
                        Grid.words("Title"),
                        Grid.words("Ride")),
                rows,
                true);
    }

    static String title(String title) {
        String safe = Words.safe(title.strip());
        return safe.codePointCount(0, safe.length()) <= TITLE
                ? safe
                : safe.substring(0, safe.offsetByCodePoints(0, TITLE - 1)) + "…";
    }
}
