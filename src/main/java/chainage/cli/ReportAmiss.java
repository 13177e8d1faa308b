package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.Contradictions;
import chainage.answer.NextStep;
import chainage.attribution.AttributedRide;
import chainage.page.Block;
import chainage.page.Cell;
import chainage.page.Grid;
import chainage.page.Page;
import chainage.render.Formatter;
import chainage.standing.Standing;
import chainage.store.Source;
import java.util.ArrayList;
import java.util.List;

/** What the page could not take into account: rides without a chain, files that were refused, facts that contradict. */
final class ReportAmiss {
    private final CommandContext context;
    private final Analysis analysis;
    private final List<Source> refused;
    private final Formatter format;

    ReportAmiss(CommandContext context, Analysis analysis, List<Source> refused) {
        this.context = context;
        this.analysis = analysis;
        this.refused = refused;
        this.format = context.format();
    }

    Page.Part part() {
        return new Page.Part(
                "amiss", "What does not fit", List.of(), List.of(unattributed(), files(), contradictions()));
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
                    List.of(List.of(Cell.of("Not attributed"), Cell.figure(format.distance(metres), metres, 1))),
                    false)));
            blocks.add(new Block.Lines(NextStep.attribute(analysis, format)));
            List<List<Cell>> rows = new ArrayList<>();
            for (AttributedRide r : bare) {
                String bike = r.bike();
                rows.add(List.of(
                        Cell.of(format.time(r.filed().ride().start())),
                        Cell.of(format.plain(analysis.exposures().metresOf(r))),
                        bike == null ? Cell.NONE : Cell.foreign(bike),
                        Cell.foreign(
                                ReportHistory.title(r.filed().ride().labels().title())),
                        Cell.of(r.id())));
            }
            blocks.add(new Block.Fold(
                    Formatter.count(bare.size(), "ride", "rides") + ", " + format.distance(metres),
                    List.of(new Block.Table(new Grid(
                            "Rides without a chain, distances in " + format.unit(),
                            List.of(
                                    Grid.words("Start"),
                                    Grid.figures("Ridden"),
                                    Grid.words("Bike"),
                                    Grid.words("Title"),
                                    Grid.words("Ride")),
                            rows,
                            true)))));
        }
        return new Page.Section("amiss-rides", "Rides without a chain", "", blocks);
    }

    private Page.Section files() {
        return new Page.Section(
                "amiss-files",
                "Files refused",
                "",
                List.of(
                        refused.isEmpty()
                                ? Block.words("Every file could be read.")
                                : new Block.Lines(refused.stream()
                                        .map(s -> RefusedCommand.trouble(s).line())
                                        .toList())));
    }

    private Page.Section contradictions() {
        List<String> found = Contradictions.of(
                analysis.ledger(),
                analysis,
                analysis.standings().stream().map(Standing::chain).toList(),
                format);
        return new Page.Section(
                "amiss-facts",
                "Facts that contradict",
                "",
                List.of(
                        found.isEmpty()
                                ? Block.words("None were found.")
                                : new Block.Lines(found.stream().map(s -> s).toList())));
    }
}
