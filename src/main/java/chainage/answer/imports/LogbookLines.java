package chainage.answer.imports;

import chainage.answer.ChangeAnswer;
import chainage.answer.things.FileTrouble;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.logbook.Line;
import chainage.logbook.LogbookReading;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Out;
import java.util.ArrayList;
import java.util.List;

/**
 * What was read of a logbook.
 *
 * @param file as the rider named it
 * @param fresh new lines, as they are always written
 * @param changed lines in another's place, before → after
 * @param gone lines whose facts were taken back
 * @param refused a line each, with its number
 * @param told those of them that were not refused before
 * @param kept how many lines are gone whose facts were kept
 * @param entries numbers of the new facts; empty for a dry run
 * @param changes what moved, a line each
 * @param trouble what is wrong with the whole of it; empty for nothing
 * @param missing true where it was not read since it is not there
 */
public record LogbookLines(
        String file,
        List<String> fresh,
        List<String> changed,
        List<String> gone,
        List<Event.RefusedLine> refused,
        List<Event.RefusedLine> told,
        int kept,
        List<Long> entries,
        List<String> changes,
        String trouble,
        boolean missing) {
    /** So many lines of a kind are shown. */
    private static final int SHOWN = 5;

    static final Columns<Event.RefusedLine> REFUSED = Columns.of(
            Column.<Event.RefusedLine>count("line", "its number in the file", Event.RefusedLine::number),
            Column.<Event.RefusedLine>word("text", "what stands there", Event.RefusedLine::text),
            Column.<Event.RefusedLine>word("reason", "and what to write instead", Event.RefusedLine::reason));

    /** What scripts get. */
    static final Columns<LogbookLines> FIELDS = Columns.of(
            Column.<LogbookLines>name("file", "as it was named", LogbookLines::file),
            Column.<LogbookLines>list("new", "lines", LogbookLines::fresh),
            Column.<LogbookLines>list("changed", "lines, before → after", LogbookLines::changed),
            Column.<LogbookLines>list("gone", "lines whose facts were taken back", LogbookLines::gone),
            Column.<LogbookLines, Event.RefusedLine>rows("refused", "lines, by number", REFUSED, LogbookLines::refused),
            Column.<LogbookLines>count("kept", "lines gone whose facts were kept", LogbookLines::kept),
            Column.<LogbookLines>list("entries", "numbers of the new facts", LogbookLines::entries),
            Column.<LogbookLines>list("changes", "what moved, before → after", LogbookLines::changes),
            Column.<LogbookLines>word("trouble", "with the whole of it; may be empty", LogbookLines::trouble));

    /** One that was read. */
    public static LogbookLines of(String file, LogbookReading reading, List<Entry> written, List<String> changes) {
        return new LogbookLines(
                file,
                reading.fresh().stream().map(Line::text).toList(),
                reading.changed().stream()
                        .map(c -> c.was().text() + " → " + c.now().text())
                        .toList(),
                reading.gone().stream().map(Event.LogbookLine::text).toList(),
                reading.refused(),
                reading.told(),
                reading.kept(),
                written.stream()
                        .filter(e -> !e.event().isNote())
                        .map(Entry::number)
                        .toList(),
                changes,
                "",
                false);
    }

    /** One that was refused as a whole. */
    public static LogbookLines refused(String file, String reason) {
        return nothing(file, reason, false);
    }

    /** One that was read before. */
    public static LogbookLines missing(String file, String why) {
        return nothing(file, why, true);
    }

    private static LogbookLines nothing(String file, String why, boolean missing) {
        return new LogbookLines(
                file, List.of(), List.of(), List.of(), List.of(), List.of(), 0, List.of(), List.of(), why, missing);
    }

    /** What states nothing, told before or not. */
    List<FileTrouble> unread() {
        List<FileTrouble> unread = new ArrayList<>();
        if (!trouble.isEmpty() && !missing) {
            unread.add(new FileTrouble(file, trouble, ""));
        }
        refused.forEach(r -> unread.add(new FileTrouble(file + ":" + r.number(), r.reason(), "")));
        return unread;
    }

    /** What the rider has to see to, in order. */
    List<FileTrouble> troubles() {
        List<FileTrouble> troubles = new ArrayList<>();
        if (!trouble.isEmpty() && !missing) {
            troubles.add(new FileTrouble(file, trouble, ""));
        }
        if (kept > 0) {
            troubles.add(new FileTrouble(
                    file,
                    Formatter.count(kept, "line is", "lines are")
                            + " gone or no longer understood, more than a third, so nothing was taken back",
                    "if that is meant, import it once with --yes"));
        }
        told.forEach(r -> troubles.add(new FileTrouble(file + ":" + r.number(), r.reason(), "")));
        return troubles;
    }

    void print(Out out, boolean dryRun) {
        if (missing) {
            out.line("The logbook " + file + " " + trouble + "; what it stated stays.");
            return;
        }
        List<String> figures = new ArrayList<>();
        add(figures, fresh.size(), "new");
        add(figures, changed.size(), "changed");
        add(figures, gone.size(), "gone");
        add(figures, refused.size(), "refused");
        if (fresh.isEmpty() && changed.isEmpty() && gone.isEmpty() && told.isEmpty() && entries.isEmpty()) {
            if (!refused.isEmpty()) {
                out.line("Logbook " + file + ": " + Formatter.count(refused.size(), "line was", "lines were")
                        + " refused earlier: chainage refused");
            }
            return;
        }
        out.line("Logbook " + file + (figures.isEmpty() ? "." : ": lines " + String.join(", ", figures) + "."));
        shown(out, "new: ", fresh);
        shown(out, "changed: ", changed);
        shown(out, "gone: ", gone);
        changes.forEach(c -> out.line(2, c));
        if (!dryRun && !entries.isEmpty()) {
            out.hint(ChangeAnswer.undo(entries));
        }
    }

    private static void add(List<String> figures, int n, String what) {
        if (n > 0) {
            figures.add(n + " " + what);
        }
    }

    private static void shown(Out out, String what, List<String> lines) {
        lines.stream().limit(SHOWN).forEach(l -> out.line(2, what + l));
        if (lines.size() > SHOWN) {
            out.line(2, "and " + (lines.size() - SHOWN) + " more");
        }
    }
}
