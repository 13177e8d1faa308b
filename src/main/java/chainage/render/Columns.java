package chainage.render;

import chainage.page.Cell;
import chainage.page.Grid;
import chainage.quantity.Estimate;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * The columns of an answer's rows, in the order in which all forms have them.
 *
 * @param <R> what a row is made from
 */
public final class Columns<R> {
    /** What every estimate is, whatever its unit. */
    static final Columns<Estimate> ESTIMATE = of(
            Column.<Estimate>figure("low", Unit.TIMES, 4, "one in ten is lower", Estimate::low),
            Column.<Estimate>figure("likely", Unit.TIMES, 4, "as many are lower as higher", Estimate::likely),
            Column.<Estimate>figure("high", Unit.TIMES, 4, "one in ten is higher", Estimate::high));

    private final List<Column<R>> columns;

    private Columns(List<Column<R>> columns) {
        this.columns = List.copyOf(columns);
    }

    @SafeVarargs
    public static <R> Columns<R> of(Column<R>... columns) {
        List<Column<R>> list = new ArrayList<>();
        for (Column<R> c : columns) {
            list.add(c);
        }
        return new Columns<>(list);
    }

    /** These, then others. */
    public Columns<R> and(Columns<R> others) {
        return new Columns<>(
                Stream.concat(columns.stream(), others.columns.stream()).toList());
    }

    /** The same columns of rows that these rows are a part of. */
    public <T> Columns<T> of(Function<T, R> part) {
        return new Columns<>(columns.stream().map(c -> c.of(part)).toList());
    }

    /** A row as an object for scripts. */
    public Json json(R row) {
        Json json = new Json();
        columns.stream().filter(c -> !c.key().isEmpty()).forEach(c -> c.put(json, row));
        return json;
    }

    /** The rows as a table for people: the columns that have a head. */
    public TextTable table(Iterable<? extends R> rows, Formatter format) {
        return table(rows, format, row -> null);
    }

    /**
     * The same with a line below each row.
     *
     * @param note for what no column could hold; null for none
     */
    public TextTable table(Iterable<? extends R> rows, Formatter format, Function<R, @Nullable String> note) {
        List<Column<R>> seen = seen();
        TextTable table = new TextTable();
        seen.forEach(c -> table.column(c.head(), c.unit()));
        for (R row : rows) {
            table.row(seen.stream().map(c -> c.shown().apply(row, format)).toArray(String[]::new));
            for (int i = 0; i < seen.size(); i++) {
                if (seen.get(i).loud().test(row)) {
                    table.loud(i);
                }
            }
            String below = note.apply(row);
            if (below != null && !below.isEmpty()) {
                table.note(below);
            }
        }
        return table;
    }

    /**
     * The rows as a table of the page: the same columns as in the terminal.
     *
     * @param sortable whether the reader may sort it
     */
    public Grid grid(String caption, Iterable<? extends R> rows, Formatter format, boolean sortable) {
        List<Column<R>> seen = seen();
        List<List<Cell>> cells = new ArrayList<>();
        for (R row : rows) {
            cells.add(seen.stream().map(c -> c.cell(row, format)).toList());
        }
        return new Grid(caption, seen.stream().map(Column::heading).toList(), cells, sortable);
    }

    /** The columns that people see, for the page's tables too. */
    public List<Column<R>> seen() {
        return columns.stream().filter(c -> !c.head().isEmpty()).toList();
    }

    /**
     * A field of an answer as its documentation has it.
     *
     * @param name with the names of the objects that it lies in, such as {@code chains.treat_on.likely}
     */
    public record Field(String name, Unit unit, String meaning) {}

    /** All fields that scripts see, those of objects within behind the field that holds them. */
    public List<Field> fields() {
        List<Field> fields = new ArrayList<>();
        for (Column<R> c : columns) {
            if (!c.key().isEmpty()) {
                fields.add(new Field(c.key(), c.unit(), c.meaning()));
                if (c.nested() != null && c.nested() != ESTIMATE) {
                    c.nested()
                            .fields()
                            .forEach(f -> fields.add(new Field(c.key() + "." + f.name(), f.unit(), f.meaning())));
                }
            }
        }
        return fields;
    }
}
