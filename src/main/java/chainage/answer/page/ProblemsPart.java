package chainage.answer.page;

import chainage.analysis.Analysis;
import chainage.answer.Contradictions;
import chainage.answer.NextStep;
import chainage.attribution.AttributedRide;
import chainage.page.Block;
import chainage.page.Cell;
import chainage.page.Grid;
import chainage.page.Page;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Unit;
import chainage.standing.Standing;
import java.util.ArrayList;
import java.util.List;

/** What the page could not take into account: rides without a chain, files that were refused, facts that contradict. */
final class ProblemsPart {
    /** More refused files stand in a fold. */
    private static final int SHOWN = 10;

    private final PageSources sources;
    private final Analysis analysis;
    private final Formatter format;

    ProblemsPart(PageSources sources, Formatter format) {
        this.sources = sources;
        this.analysis = sources.analysis();
        this.format = format;
    }

    Page.Part part() {
        return new Page.Part("problems", "Problems", List.of(), List.of(unattributed(), files(), contradictions()));
    }

    private Page.Section unattributed() {
        List<AttributedRide> bare = analysis.exposures().unattributed();
        List<Block> blocks = new ArrayList<>();
        double metres = analysis.exposures().unattributedMetres();
        if (bare.isEmpty()) {
            blocks.add(Block.words(
                    "Every ride that counts has its chain: " + format.distance(metres) + " are without one."));
        } else {
            blocks.add(new Block.Table(new Grid(
                    "Distance that no chain has",
                    List.of(Grid.words("Figure"), Grid.figures("Sum")),
                    List.of(List.of(Cell.of("Without a chain"), Cell.figure(format.distance(metres), metres, 1))),
                    false)));
            blocks.add(new Block.Lines(NextStep.attribute(analysis, format)));
            blocks.add(new Block.Fold(
                    Formatter.count(bare.size(), "ride", "rides") + ", " + format.distance(metres),
                    RideColumns.latest(
                            bare(),
                            "Rides without a chain, distances in " + format.unit(),
                            bare,
                            format,
                            "chainage rides --unattributed")));
        }
        return new Page.Section("problems-rides", "Rides without a chain", "", blocks);
    }

    private Columns<AttributedRide> bare() {
        return RideColumns.START
                .and(Columns.of(
                        Column.shown(
                                "Ridden",
                                Unit.METRES,
                                (r, f) -> f.plain(analysis.exposures().metresOf(r))),
                        Column.shown("Bike", Unit.NAME, (r, f) -> r.bike() == null ? "–" : r.bike())))
                .and(RideColumns.TITLE);
    }

    private Page.Section files() {
        List<String> refused = sources.refused();
        Block all = new Block.Lines(refused);
        return new Page.Section(
                "problems-files",
                "Files refused",
                "",
                List.of(
                        refused.isEmpty()
                                ? Block.words("No file is left that could not be read.")
                                : refused.size() <= SHOWN
                                        ? all
                                        : new Block.Fold(
                                                Formatter.count(refused.size(), "file or line", "files and lines"),
                                                List.of(all))));
    }

    private Page.Section contradictions() {
        List<String> found = Contradictions.of(
                analysis.ledger(),
                analysis,
                analysis.standings().stream().map(Standing::chain).toList(),
                format);
        List<Block> blocks =
                new ArrayList<>(List.of(found.isEmpty() ? Block.words("None were found.") : new Block.Lines(found)));
        List<String> notes = sources.notes();
        if (!notes.isEmpty()) {
            blocks.add(new Block.Fold(
                    Formatter.count(notes.size(), "more thing", "more things") + " to look over",
                    List.of(new Block.Lines(notes))));
        }
        return new Page.Section("problems-facts", "Facts that contradict", "", blocks);
    }
}
