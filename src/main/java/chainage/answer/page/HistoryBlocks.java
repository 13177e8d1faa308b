package chainage.answer.page;

import chainage.analysis.Analysis;
import chainage.answer.ReadingWords;
import chainage.answer.RoadNames;
import chainage.exposure.ChainExposure;
import chainage.exposure.RideExposure;
import chainage.page.Block;
import chainage.page.Grid;
import chainage.quantity.PlainText;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Unit;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** What was done to a chain, what was seen on it, and what was ridden on it. */
final class HistoryBlocks {
    private record Line(Instant at, String what, String how) {}

    private static final Columns<Line> DONE = Columns.of(
            Column.<Line>shown("Day", Unit.DAY, (l, f) -> f.date(l.at())),
            Column.<Line>shown("What", Unit.WORD, (l, f) -> l.what()),
            Column.<Line>shown("How", Unit.NAME, (l, f) -> l.how()));

    private static final Columns<RideExposure> RIDES = RideColumns.START
            .of(RideExposure::ride)
            .and(Columns.of(
                    Column.<RideExposure>shown(
                            "Ridden", Unit.METRES, (r, f) -> f.plain(r.metres().metres())),
                    Column.<RideExposure>shown("Road", Unit.ID, (r, f) -> RoadNames.words(r.condition())),
                    Column.<RideExposure>shown("Times", Unit.TIMES, (r, f) -> Formatter.fixed(r.treatmentFactor(), 2)),
                    Column.<RideExposure>shown("Counts", Unit.METRES, (r, f) -> f.plain(r.treatmentMetres()))))
            .and(RideColumns.TITLE.of(RideExposure::ride));

    private final Analysis analysis;
    private final Formatter format;
    private final ChainExposure exposure;

    HistoryBlocks(Analysis analysis, Formatter format, ChainExposure exposure) {
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
                    "Rides: " + Formatter.count(exposure.rides().size(), "ride", "rides") + ", "
                            + format.distance(exposure.riddenMetres()),
                    rides()));
        }
        return blocks;
    }

    /** Treatments, readings and remarks, by time. */
    private Grid done() {
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
        return DONE.grid("What was done to " + exposure.chain().chain() + ", and what was seen", lines, format, false);
    }

    private List<Block> rides() {
        String chain = exposure.chain().chain();
        return RideColumns.latest(
                RIDES,
                "Rides on " + chain + ", distances in " + format.unit(),
                exposure.rides(),
                format,
                "chainage rides --chain " + PlainText.typed(chain));
    }
}
