package chainage.answer.imports;

import chainage.answer.ChangeAnswer;
import chainage.answer.things.FileTrouble;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.quantity.PlainText;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Out;
import chainage.table.RideTable;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * What was read of a table that tells of rides.
 *
 * @param file where it is
 * @param table what it says
 * @param changed rows that say something else than before
 * @param kept of how many rides it says nothing any more, and what it said stays
 * @param entries numbers of the new facts; empty for a dry run
 * @param changes what moved, a line each
 * @param trouble why it was not read; empty for nothing
 * @param missing true where it is not there any more
 */
public record TableRead(
        String file,
        RideTable table,
        List<Event.Told> changed,
        int kept,
        List<Long> entries,
        List<String> changes,
        String trouble,
        boolean missing) {
    private static final RideTable NOTHING =
            new RideTable(List.of(), List.of(), List.of(), List.of(), List.of(), Map.of());

    /** So many lines of a table are named. */
    private static final int SHOWN = 5;

    /** What scripts get. */
    static final Columns<TableRead> FIELDS = Columns.of(
            Column.<TableRead>name("file", "where it is", TableRead::file),
            Column.<TableRead>list("columns", "what each holds", t -> t.table().mapping()),
            Column.<TableRead>count(
                    "rides", "that it tells of", t -> t.table().rows().size()),
            Column.<TableRead>count(
                    "changed", "of them otherwise than before", t -> t.changed().size()),
            Column.<TableRead>count("kept", "gone from it, of which what it told stays", TableRead::kept),
            Column.<TableRead>list(
                    "absent",
                    "lines of files that are not there",
                    t -> t.table().absent()),
            Column.<TableRead>list(
                    "doubtful",
                    "lines of names that several files have",
                    t -> t.table().doubtful()),
            Column.<TableRead>list(
                    "strangers",
                    "bikes that are none of yours",
                    t -> List.copyOf(t.table().strangers().keySet())),
            Column.<TableRead>list("entries", "numbers of the new facts", TableRead::entries),
            Column.<TableRead>list("changes", "what moved, before → after", TableRead::changes),
            Column.<TableRead>word("trouble", "why it was not read; may be empty", TableRead::trouble));

    /** One that was read. */
    public static TableRead of(
            String file, RideTable table, RideTable.Changes now, List<Entry> written, List<String> changes) {
        return new TableRead(
                file,
                table,
                now.rows(),
                now.kept(),
                written.stream().map(Entry::number).toList(),
                changes,
                "",
                false);
    }

    /** One that cannot be read. */
    public static TableRead refused(String file, String why) {
        return new TableRead(file, NOTHING, List.of(), 0, List.of(), List.of(), why, false);
    }

    /** One that was read before. */
    public static TableRead gone(String file) {
        return new TableRead(file, NOTHING, List.of(), 0, List.of(), List.of(), "is not there any more", true);
    }

    List<FileTrouble> troubles() {
        if (kept > 0) {
            return List.of(new FileTrouble(
                    file,
                    Formatter.count(kept, "ride is", "rides are")
                            + " gone from it, more than a third, so what it told of them stays",
                    "if that is meant, name it once with --table"));
        }
        return trouble.isEmpty() || missing ? List.of() : List.of(new FileTrouble(file, trouble, ""));
    }

    void print(Out out, boolean dryRun) {
        if (missing) {
            out.line("The table " + file + " " + trouble + "; what it told stays.");
            return;
        }
        if (changed.isEmpty() || !trouble.isEmpty()) {
            return;
        }
        out.line("Table " + file + ", by its columns " + String.join(", ", table.mapping()) + ":");
        int gone = (int) changed.stream()
                .filter(t -> t.title() == null && t.notes() == null && t.written() == null)
                .count();
        out.line(
                2,
                Formatter.count(changed.size() - gone, "ride", "rides") + " told of"
                        + (gone == 0 ? "" : ", " + gone + " no more") + ": "
                        + Formatter.count(count(Event.Told::title), "title", "titles") + ", "
                        + count(Event.Told::notes) + " with notes, " + count(Event.Told::bike) + " with a bike");
        lines(out, table.absent(), "of a file that is not there", "of files that are not there");
        lines(out, table.doubtful(), "of a name that several files have", "of names that several files have");
        table.strangers()
                .forEach((bike, rows) -> out.line(
                        2,
                        Formatter.count(rows, "row names", "rows name") + " the bike \"" + bike
                                + "\", which is none of yours: chainage bike add " + PlainText.typed(bike)
                                + ", then import again"));
        changes.forEach(c -> out.line(2, c));
        if (!dryRun) {
            out.hint(ChangeAnswer.undo(entries));
        }
    }

    private int count(Function<Event.Told, ?> of) {
        return (int) changed.stream().map(of).filter(Objects::nonNull).count();
    }

    private static void lines(Out out, List<Long> lines, String one, String several) {
        if (!lines.isEmpty()) {
            out.line(
                    2,
                    Formatter.count(lines.size(), "row", "rows") + " " + (lines.size() == 1 ? one : several) + " (line "
                            + lines.stream().limit(SHOWN).map(String::valueOf).collect(Collectors.joining(", "))
                            + (lines.size() > SHOWN ? ", …" : "") + ")");
        }
    }
}
