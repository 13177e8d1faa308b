package chainage.answer.page;

import chainage.analysis.Analysis;
import chainage.exposure.ChainExposure;
import chainage.page.Block;
import chainage.page.Cell;
import chainage.page.Grid;
import chainage.page.Page;
import chainage.quantity.Estimate;
import chainage.render.Formatter;
import chainage.standing.Dates;
import chainage.standing.Standing;
import chainage.treatment.ProductLife;
import chainage.wear.WearStanding;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** One chain on the page: its figures, its two plots, its history, and what they rest on. */
final class ChainSection {
    private final Analysis analysis;
    private final Formatter format;
    private final Standing s;
    private final ChainExposure exposure;

    ChainSection(Analysis analysis, Formatter format, Standing s) {
        this.analysis = analysis;
        this.format = format;
        this.s = s;
        this.exposure = s.exposure();
    }

    Page.Section section(String id, String advice, List<String> why) {
        List<Block> blocks = new ArrayList<>();
        blocks.add(new Block.Words(Block.Tone.ADVICE, advice));
        if (!exposure.rides().isEmpty()) {
            ChainPlots plots = new ChainPlots(analysis, format, s);
            blocks.add(new Block.Figure(plots.exposure()));
            blocks.add(new Block.Figure(plots.wear()));
        }
        List<Block> folded = new ArrayList<>(List.of(new Block.Table(figures())));
        folded.addAll(new HistoryBlocks(analysis, format, exposure).blocks());
        folded.add(new Block.Fold(
                "Why: what the figures rest on",
                List.of(new Block.Lines(why.stream().map(String::strip).toList()))));
        blocks.add(new Block.Fold("Figures, history, rides, and why", folded));
        String where = s.bike() == null ? "on the shelf" : "on " + String.valueOf(s.bike());
        String treated = exposure.treatedAt() == null
                ? "never treated, as far as noted"
                : exposure.product().product() + " since " + format.date(exposure.treatedAt());
        return new Page.Section(id, s.chain(), where + "; " + treated, blocks);
    }

    private Grid figures() {
        List<List<Cell>> rows = new ArrayList<>();
        rows.add(one("Ridden in all", metres(exposure.riddenMetres())));
        rows.add(one("Ridden since its treatment", metres(exposure.metresSinceTreatment())));
        rows.add(one("Dry-road equivalent", metres(s.treatment().exposureMetres())));
        Estimate life = s.treatment().lifeMetres();
        ProductLife product = s.treatment().product();
        rows.add(life == null ? one("Life of the treatment", Cell.NONE) : three("Life of the treatment", metres(life)));
        rows.add(one("Treatments run until noisy", count(product == null ? 0 : product.ended())));
        rows.add(one("Renewed or running, no noise", count(product == null ? 0 : product.silent())));
        rows.add(one(
                "What the table still counts for in that", product == null ? Cell.NONE : share(product.tableWeight())));
        rows.add(one("Due after", metres(s.treatment().limitMetres())));
        rows.add(one("Share of the due distance", share(s.treatment().used())));
        rows.add(one("Used of the likely life", share(s.treatment().usedOfLikely())));
        double left = s.treatment().dueInMetres();
        rows.add(one(left < 0 ? "Overdue by" : "Left until due", metres(Math.abs(left))));
        rows.add(one("Left on its bike's usual roads", s.hasUsualRoads() ? metres(s.leftMetres()) : Cell.NONE));
        rows.add(one("What a usual ride counts", s.usualRideMetres() > 0 ? metres(s.usualRideMetres()) : Cell.NONE));
        rows.add(three("Left of the life", metres(s.treatment().leftMetres())));
        rows.add(dates("Treat by", s.treatBy()));
        rows.add(dates("Worn off on", s.treatOn()));
        WearStanding wear = s.wear();
        Estimate worn = wear.elongationPercent();
        rows.add(three("Elongation", List.of(percent(worn.low()), percent(worn.likely()), percent(worn.high()))));
        rows.add(one("Readings", count(wear.readings().size())));
        rows.add(one("Expected by the table", percent(wear.expectedPercent())));
        Estimate pace = wear.elongation().pace();
        rows.add(three(
                "Wear rate against the table", List.of(times(pace.low()), times(pace.likely()), times(pace.high()))));
        rows.add(one("Elongation limit", percent(wear.limitPercent())));
        rows.add(one("Chance that it is past it", chance(wear.over())));
        rows.add(one("Share of the wear limit", share(wear.used())));
        rows.add(three("Left to the limit", metres(wear.leftMetres())));
        rows.add(dates("Replace on", s.replaceOn()));
        return new Grid(
                "Where " + s.chain() + " stands",
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
                : three(name, List.of(format.cell(d.low()), format.cell(d.likely()), format.cell(d.high())));
    }

    private Cell metres(double metres) {
        return Cell.figure(format.distance(metres).replace("-", "−"), metres, 1);
    }

    private List<Cell> metres(Estimate e) {
        return List.of(metres(e.low()), metres(e.likely()), metres(e.high()));
    }

    private static Cell count(int n) {
        return Cell.figure(Integer.toString(n), n, 0);
    }

    private static Cell times(double times) {
        return Cell.figure(Formatter.fixed(times, 2), times, 4);
    }

    private static Cell share(double share) {
        return Cell.figure(Formatter.percent(share), share, 4);
    }

    /** What can happen is never told as 0 %. */
    private static Cell chance(double chance) {
        return Cell.figure(chance < 0.005 ? "under 1 %" : Formatter.percent(chance), chance, 4);
    }

    private static Cell percent(double percent) {
        return Cell.figure(Formatter.elongation(percent) + " %", percent, 4);
    }
}
