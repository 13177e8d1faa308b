package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.ReadingWords;
import chainage.answer.Roads;
import chainage.exposure.ChainExposure;
import chainage.exposure.RideExposure;
import chainage.page.Block;
import chainage.page.Cell;
import chainage.page.Grid;
import chainage.render.Formatter;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** What was done to a chain, what was seen on it, and what was ridden on it. */
final class ReportHistory {
    /** Longer titles are cut, so that ten thousand of them still make a page. */
    private static final int TITLE = 48;

    private final Analysis analysis;
    private final Formatter format;
    private final ChainExposure exposure;

    ReportHistory(Analysis analysis, Formatter format, ChainExposure exposure) {
        this.analysis = analysis;
        this.format = format;
        this.exposure = exposure;
    }

    List<Block> blocks() {
        List<Block> blocks = new ArrayList<>();
        Grid done = done();
        if (!done.rows().isEmpty()) {
            blocks.add(new Block.Table(done));
        }
        if (!exposure.rides().isEmpty()) {
            blocks.add(new Block.Fold(
                    Formatter.count(exposure.rides().size(), "ride", "rides") + ", "
                            + format.distance(exposure.riddenMetres()),
                    List.of(new Block.Table(rides()))));
        }
        return blocks;
    }

    /** Treatments, readings and remarks, by time. */
    private Grid done() {
        record Line(Instant at, String what, String how) {}
        List<Line> lines = new ArrayList<>();
        analysis.ledger()
                .treatments(exposure.chain().chain())
                .forEach(t -> lines.add(new Line(
                        t.at(),
                        "treated",
                        t.product() + ", cleaning " + t.cleaning().word()
                                + (t.millilitres() == null ? "" : ", " + Formatter.number(t.millilitres()) + " ml")
                                + (t.minutes() == null ? "" : ", " + Formatter.number(t.minutes()) + " minutes"))));
        analysis.ledger()
                .readings(exposure.chain().chain())
                .forEach(m -> lines.add(new Line(m.at(), "measured", ReadingWords.of(m.reading()))));
        analysis.ledger()
                .remarks(exposure.chain().chain())
                .forEach(r -> lines.add(new Line(r.at(), r.remark().word(), r.words())));
        lines.sort(Comparator.comparing(Line::at));
        List<List<Cell>> rows = new ArrayList<>();
        lines.forEach(l -> rows.add(List.of(format.cell(l.at()), Cell.of(l.what()), Cell.foreign(l.how()))));
        return new Grid(
                "What was done to " + exposure.chain().chain() + ", and what was seen",
                List.of(Grid.words("Day"), Grid.words("What"), Grid.words("How")),
                rows,
                false);
    }

    private Grid rides() {
        List<List<Cell>> rows = new ArrayList<>();
        for (RideExposure r : exposure.rides()) {
            rows.add(List.of(
                    Cell.of(format.time(r.start())),
                    Cell.of(format.plain(r.metres().metres())),
                    Cell.of(Roads.words(r.condition())),
                    Cell.of(Formatter.fixed(r.treatmentFactor(), 2)),
                    Cell.of(format.plain(r.treatmentMetres())),
                    Cell.foreign(title(r.ride().filed().ride().labels().title())),
                    Cell.of(r.ride().id())));
        }
        return new Grid(
                "Rides on " + exposure.chain().chain() + ", distances in " + format.unit(),
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
        String safe = title.strip();
        return safe.codePointCount(0, safe.length()) <= TITLE
                ? safe
                : safe.substring(0, safe.offsetByCodePoints(0, TITLE - 1)) + "…";
    }
}
