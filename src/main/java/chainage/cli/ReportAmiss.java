package chainage.cli;

import chainage.attribution.AttributedRide;
import chainage.page.Block;
import chainage.page.Cell;
import chainage.page.Grid;
import chainage.page.Page;
import chainage.standing.Standing;
import chainage.store.Source;
import java.util.ArrayList;
import java.util.List;

/** What the page could not take into account: rides without a chain, files that were refused, facts that contradict. */
final class ReportAmiss {
    private final Desk desk;
    private final Picture picture;
    private final List<Source> refused;
    private final Words words;

    ReportAmiss(Desk desk, Picture picture, List<Source> refused) {
        this.desk = desk;
        this.picture = picture;
        this.refused = refused;
        this.words = desk.words();
    }

    Page.Part part() {
        return new Page.Part(
                "amiss", "What does not fit", List.of(), List.of(unattributed(), files(), contradictions()));
    }

    private Page.Section unattributed() {
        List<AttributedRide> bare = picture.exposures().unattributed();
        List<Block> blocks = new ArrayList<>();
        double metres = picture.exposures().unattributedMetres();
        if (bare.isEmpty()) {
            blocks.add(Block.words(
                    "Every ride that counts has its chain: " + words.distance(metres) + " are without one."));
        } else {
            blocks.add(new Block.Table(new Grid(
                    "Distance that no chain has",
                    List.of(Grid.words("Figure"), Grid.figures("Sum")),
                    List.of(List.of(Cell.of("Not attributed"), Cell.figure(words.distance(metres), metres, 1))),
                    false)));
            blocks.add(new Block.Lines(Guide.attribute(picture, words)));
            List<List<Cell>> rows = new ArrayList<>();
            for (AttributedRide r : bare) {
                String bike = r.bike();
                rows.add(List.of(
                        Cell.of(words.time(r.filed().ride().start())),
                        Cell.of(words.plain(picture.exposures().metresOf(r))),
                        bike == null ? Cell.NONE : Cell.foreign(Words.safe(bike)),
                        Cell.foreign(
                                ReportHistory.title(r.filed().ride().labels().title())),
                        Cell.of(r.id())));
            }
            blocks.add(new Block.Fold(
                    Words.count(bare.size(), "ride", "rides") + ", " + words.distance(metres),
                    List.of(new Block.Table(new Grid(
                            "Rides without a chain, distances in " + words.unit(),
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
                                        .map(s -> Words.safe(ImportCommand.line(s.path(), s.reason(), s.mend())))
                                        .toList())));
    }

    private Page.Section contradictions() {
        List<String> found = desk.contradictions(
                picture.ledger(),
                picture,
                picture.standings().stream().map(Standing::chain).toList());
        return new Page.Section(
                "amiss-facts",
                "Facts that contradict",
                "",
                List.of(
                        found.isEmpty()
                                ? Block.words("None were found.")
                                : new Block.Lines(
                                        found.stream().map(Words::safe).toList())));
    }
}
