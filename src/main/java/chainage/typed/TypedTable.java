package chainage.typed;

import chainage.logbook.Days;
import chainage.logbook.Refusal;
import chainage.quantity.PlainText;
import chainage.table.Deed;
import chainage.table.Part;
import chainage.table.Table;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** How a table of the rider's is to be read, as it is typed. */
public final class TypedTable {
    private TypedTable() {}

    /**
     * The table's columns by what they hold; -1 for a part that none is to hold.
     *
     * @param typed headings or numbers; null where nothing is said of a part
     */
    public static Map<Part, Integer> columns(Table read, Map<Part, @Nullable String> typed) throws Refusal {
        Map<Part, Integer> columns = new EnumMap<>(Part.class);
        for (Map.Entry<Part, @Nullable String> t : typed.entrySet()) {
            String name = t.getValue();
            if (name != null) {
                columns.put(t.getKey(), name.equals("none") ? -1 : read.column(name));
            }
        }
        return columns;
    }

    /** How days are written. */
    public static Days.Order order(@Nullable String dates) {
        if (dates == null) {
            return Days.Order.UNKNOWN;
        }
        return switch (dates) {
            case "day-first" -> Days.Order.DAY_FIRST;
            case "month-first" -> Days.Order.MONTH_FIRST;
            default -> throw CliError.usage("--dates \"" + dates + "\" cannot be", "write day-first or month-first");
        };
    }

    /** The rider's own words for what was done. */
    public static Map<String, Deed> meanings(List<String> means) {
        Map<String, Deed> meanings = new HashMap<>();
        for (String typed : means) {
            int equals = typed.lastIndexOf('=');
            String deed = typed.substring(equals + 1).strip();
            if (equals < 1 || Deed.called(deed).isEmpty()) {
                throw CliError.usage(
                        "--means \"" + PlainText.marked(typed) + "\" cannot be",
                        "write the word in your table, = and one of "
                                + Arrays.stream(Deed.values()).map(Deed::word).collect(Collectors.joining(", ")));
            }
            meanings.put(typed.substring(0, equals), Deed.called(deed).orElseThrow());
        }
        return meanings;
    }
}
