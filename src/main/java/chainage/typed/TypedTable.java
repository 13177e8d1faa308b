package chainage.typed;

import chainage.logbook.Days;
import chainage.quantity.PlainText;
import chainage.table.Deed;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** How a table of the rider's is to be read, as it is typed. */
public final class TypedTable {
    private TypedTable() {}

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
