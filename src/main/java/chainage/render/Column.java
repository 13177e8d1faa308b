package chainage.render;

import chainage.page.Cell;
import chainage.page.Grid;
import chainage.quantity.Estimate;
import chainage.quantity.Money;
import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * One figure or word of an answer's rows, declared once: the field of its JSON, the column of its spreadsheet, of the
 * terminal's table and of the page's, and what the documentation says of it.
 *
 * @param <R> what a row is made from
 * @param key name of the JSON field, a promise to scripts; empty for a column that only people see
 * @param unit what the values are
 * @param decimals that figures are rounded to for scripts
 * @param meaning a sentence without full stop
 * @param value of a row: text, number, boolean, instant, {@link Estimate}, list, {@link Json} or null for none
 * @param head above the terminal's column; empty for a field that only scripts see
 * @param shown the value as people read it
 * @param loud whether a row's value is one not to be missed; the words say so too
 * @param nested the columns of the objects that the values are, null for plain values
 */
public record Column<R>(
        String key,
        Unit unit,
        int decimals,
        String meaning,
        Function<R, @Nullable Object> value,
        String head,
        BiFunction<R, Formatter, String> shown,
        Predicate<R> loud,
        @Nullable Columns<?> nested) {
    /** Words in capitals at the start of a head, or longer than a unit or a currency's code. */
    private static final Pattern LOUD = Pattern.compile("^[A-Z]{2,}(?![A-Z/])|[A-Z]{4,}");

    private static final Pattern DATE = Pattern.compile("\\d{4}-\\d\\d(?:-\\d\\d)?");

    private static <R> Column<R> of(
            String key,
            Unit unit,
            int decimals,
            String meaning,
            Function<R, ? extends @Nullable Object> value,
            @Nullable Columns<?> nested) {
        return new Column<>(
                key,
                unit,
                decimals,
                meaning,
                value::apply,
                "",
                (row, format) -> unit.shown(value.apply(row), format),
                row -> false,
                nested);
    }

    /** A word of ours. */
    public static <R> Column<R> word(String key, String meaning, Function<R, @Nullable String> value) {
        return of(key, Unit.WORD, 0, meaning, value, null);
    }

    /** A sentence of ours, shown whole. */
    public static <R> Column<R> prose(String key, String meaning, Function<R, @Nullable String> value) {
        return of(key, Unit.PROSE, 0, meaning, value, null);
    }

    /** A name that a rider or a file gave. */
    public static <R> Column<R> name(String key, String meaning, Function<R, @Nullable String> value) {
        return of(key, Unit.NAME, 0, meaning, value, null);
    }

    /** What a thing is called up by. */
    public static <R> Column<R> id(String key, String meaning, Function<R, @Nullable String> value) {
        return of(key, Unit.ID, 0, meaning, value, null);
    }

    public static <R> Column<R> truth(String key, String meaning, Function<R, @Nullable Boolean> value) {
        return of(key, Unit.TRUTH, 0, meaning, value, null);
    }

    /** An instant: UTC for scripts, local time for people. */
    public static <R> Column<R> time(String key, String meaning, Function<R, @Nullable Instant> value) {
        return of(key, Unit.TIME, 0, meaning, value, null);
    }

    /** A local date, as text. */
    public static <R> Column<R> day(String key, String meaning, Function<R, @Nullable String> value) {
        return of(key, Unit.DAY, 0, meaning, value, null);
    }

    /** How many. */
    public static <R> Column<R> count(String key, String meaning, Function<R, ? extends @Nullable Number> value) {
        return of(key, Unit.COUNT, 0, meaning, value, null);
    }

    /**
     * A figure.
     *
     * @param decimals that scripts get it rounded to
     * @param value null or NaN where it is not known
     */
    public static <R> Column<R> figure(
            String key, Unit unit, int decimals, String meaning, Function<R, @Nullable Double> value) {
        return of(key, unit, decimals, meaning, value, null);
    }

    /** A figure with its 80 % interval; people see the likely one. */
    public static <R> Column<R> estimate(
            String key, Unit unit, int decimals, String meaning, Function<R, @Nullable Estimate> value) {
        Column<R> column = of(key, unit, decimals, meaning, value, Columns.ESTIMATE);
        return column.as((row, format) -> {
            Estimate e = value.apply(row);
            return unit.shown(e == null ? null : e.likely(), format);
        });
    }

    /** An amount of money: exact and with its currency for scripts, the amount alone for people. */
    public static <R> Column<R> money(String key, String meaning, Function<R, @Nullable Money> value) {
        Column<R> column = of(
                key,
                Unit.MONEY,
                0,
                meaning,
                (R row) -> {
                    Money money = value.apply(row);
                    return money == null ? null : money.toString();
                },
                null);
        return column.as((row, format) -> {
            Money money = value.apply(row);
            return money == null ? "–" : money.amount();
        });
    }

    /** Words or numbers. */
    public static <R> Column<R> list(String key, String meaning, Function<R, ? extends Collection<?>> value) {
        return of(key, Unit.LIST, 0, meaning, value, null);
    }

    /** An object with columns of its own; null where there is none. */
    public static <R, T> Column<R> object(
            String key, String meaning, Columns<T> columns, Function<R, @Nullable T> value) {
        return of(
                key,
                Unit.LIST,
                0,
                meaning,
                (R row) -> {
                    T part = value.apply(row);
                    return part == null ? null : columns.json(part);
                },
                columns);
    }

    /** Rows with columns of their own. */
    public static <R, T> Column<R> rows(String key, String meaning, Columns<T> columns, Function<R, List<T>> value) {
        return of(
                key,
                Unit.LIST,
                0,
                meaning,
                (R row) -> value.apply(row).stream().map(columns::json).toList(),
                columns);
    }

    /** A column that people see and scripts do not, since others hold its figures. */
    public static <R> Column<R> shown(String head, Unit unit, BiFunction<R, Formatter, String> shown) {
        return new Column<>("", unit, 0, "", row -> null, head, shown, row -> false, null);
    }

    /** The same column of rows that these rows are a part of. */
    public <T> Column<T> of(Function<T, R> part) {
        return new Column<>(
                key,
                unit,
                decimals,
                meaning,
                row -> value.apply(part.apply(row)),
                head,
                (row, format) -> shown.apply(part.apply(row), format),
                row -> loud.test(part.apply(row)),
                nested);
    }

    /** The same with a head, so that it stands in tables as well. */
    public Column<R> head(String words) {
        return new Column<>(key, unit, decimals, meaning, value, words, shown, loud, nested);
    }

    /** The same, read by people in another way. */
    public Column<R> as(BiFunction<R, Formatter, String> otherwise) {
        return new Column<>(key, unit, decimals, meaning, value, head, otherwise, loud, nested);
    }

    /** The same, standing out where a row's value is one not to be missed. */
    public Column<R> loud(Predicate<R> when) {
        return new Column<>(key, unit, decimals, meaning, value, head, shown, when, nested);
    }

    /** Its heading on the page: the head's words in small letters, units and codes as they are. */
    Grid.Column heading() {
        String words = LOUD.matcher(head).replaceAll(m -> m.group().toLowerCase(Locale.ROOT));
        String title = words.isEmpty() ? "" : words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
        return unit.figure() ? Grid.figures(title) : Grid.words(title);
    }

    /** A row's cell on the page. */
    Cell cell(R row, Formatter format) {
        String text = shown.apply(row, format);
        if (text.equals("–")) {
            return Cell.NONE;
        }
        return switch (unit) {
            case NAME -> Cell.foreign(text);
            case DAY -> DATE.matcher(text).matches() ? Cell.date(text, text) : Cell.of(text);
            default -> Cell.of(text);
        };
    }

    /** The field of a row. */
    void put(Json json, R row) {
        Object v = value.apply(row);
        if (v instanceof Estimate e) {
            json.estimate(key, e, decimals);
        } else if (v instanceof Double d) {
            json.number(key, d, decimals);
        } else if (nested != null && v instanceof List<?> objects) {
            json.rows(key, objects);
        } else {
            json.put(key, v);
        }
    }
}
