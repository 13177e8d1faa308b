package chainage.answer;

import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * Things of one kind in a table: what a list is made from, apart from its rows.
 *
 * @param <R> what a row is made from
 * @param key the field that holds the rows
 * @param order a sentence without full stop on which come first
 * @param whenEmpty what is said where there are none, with the next command
 * @param legend what the heads mean, below the table; empty where they say it themselves
 */
public record Listing<R>(String key, String order, Columns<R> columns, String whenEmpty, String legend) {
    /** Of columns that say themselves what they hold. */
    public Listing(String key, String order, Columns<R> columns, String whenEmpty) {
        this(key, order, columns, whenEmpty, "");
    }

    /** What scripts get. */
    public Columns<List<R>> fields() {
        return Columns.of(Column.rows(key, order, columns, rows -> rows));
    }

    /** These rows. */
    public Answer of(List<R> rows, Formatter format) {
        return of(rows, format, row -> null);
    }

    /**
     * These rows with a line below each.
     *
     * @param note for what no column could hold; null for none
     */
    public Answer of(List<R> rows, Formatter format, Function<R, @Nullable String> note) {
        return new Answer() {
            @Override
            public Json json() {
                return fields().json(rows);
            }

            @Override
            public void print(Out out) {
                if (rows.isEmpty()) {
                    out.line(whenEmpty);
                } else {
                    out.table(columns.table(rows, format, note));
                    if (!legend.isEmpty() && !out.quiet()) {
                        out.line();
                        out.line(legend);
                    }
                }
            }
        };
    }
}
