package chainage.answer.imports;

import chainage.ledger.Event;
import chainage.quantity.PlainText;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import chainage.table.TableLines;
import org.jspecify.annotations.Nullable;

/**
 * What a table became.
 *
 * @param table as the rider named it
 * @param file that was written; null where the lines are the answer
 * @param made the lines
 */
public record TableAnswer(String table, @Nullable String file, TableLines made) implements Answer {
    /** So many lines are shown of a file that was written. */
    private static final int SHOWN = 10;

    /** What scripts get. */
    public static final Columns<TableAnswer> FIELDS = Columns.of(
            Column.<TableAnswer>name("table", "as it was named", TableAnswer::table),
            Column.<TableAnswer>name("file", "that was written; null where none was", TableAnswer::file),
            Column.<TableAnswer>list("columns", "what each holds", a -> a.made().mapping()),
            Column.<TableAnswer>list("lines", "of a logbook", a -> a.made().lines()),
            Column.<TableAnswer, Event.RefusedLine>rows(
                    "refused",
                    "rows of the table, by line",
                    LogbookLines.REFUSED,
                    a -> a.made().refused()));

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        if (file == null) {
            out.text(text());
            return;
        }
        made.mapping().forEach(out::whole);
        made.lines().stream().limit(SHOWN).forEach(out::whole);
        int more = made.lines().size() - SHOWN;
        if (more > 0) {
            out.whole("and " + more + " more");
        }
        out.whole(file + ": " + Formatter.count(made.lines().size(), "line", "lines"));
        out.hint("look it over, then: chainage import " + PlainText.typed(String.valueOf(file)) + " --dry-run");
    }

    /** The whole text of the logbook. */
    public String text() {
        return made.text(table);
    }
}
