package chainage.render;

import chainage.quantity.PlainText;
import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * The rows of a JSON answer as a table of cells for spreadsheets (RFC 4180): the same names, units and figures. What is
 * one object within a row becomes several columns, {@code treat_on_likely}; a list becomes one cell, its parts joined by
 * {@code "; "}.
 */
public final class CsvTable {
    public static final String HELP = "print a table for spreadsheets (CSV): the columns are the fields of --json";

    private CsvTable() {}

    /**
     * A line of names and a line for each row.
     *
     * @param answer its rows are the first field that is a list of objects, or else it is the only row itself
     */
    public static String of(Json answer) {
        List<Map<String, String>> flat = rows(answer).stream()
                .map(r -> {
                    Map<String, String> cells = new LinkedHashMap<>();
                    flatten("", r, cells);
                    return cells;
                })
                .toList();
        Set<String> names =
                flat.stream().flatMap(c -> c.keySet().stream()).collect(Collectors.toCollection(LinkedHashSet::new));
        // An object that one row lacks has its columns from the others.
        names.removeIf(n -> names.stream().anyMatch(longer -> longer.startsWith(n + "_"))
                && flat.stream().allMatch(c -> c.getOrDefault(n, "").isEmpty()));
        StringWriter text = new StringWriter();
        try (CsvWriter csv = CsvWriter.builder().build(text)) {
            if (!names.isEmpty()) {
                csv.writeRecord(names);
            }
            flat.forEach(c -> csv.writeRecord(
                    names.stream().map(n -> c.getOrDefault(n, "")).toList()));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return text.toString();
    }

    private static List<?> rows(Json answer) {
        Map<String, @Nullable Object> fields = answer.fields();
        if (answer.rows() != null && fields.get(answer.rows()) instanceof List<?> declared) {
            return declared;
        }
        for (Object value : fields.values()) {
            if (value instanceof List<?> list
                    && !list.isEmpty()
                    && list.stream().allMatch(Map.class::isInstance)) {
                return list;
            }
        }
        return List.of(fields);
    }

    private static void flatten(String name, @Nullable Object value, Map<String, String> cells) {
        if (value instanceof Map<?, ?> object) {
            object.forEach((k, v) -> flatten(name.isEmpty() ? String.valueOf(k) : name + "_" + k, v, cells));
        } else if (value instanceof List<?> list) {
            cells.put(name, harmless(list.stream().map(CsvTable::text).collect(Collectors.joining("; "))));
        } else if (value instanceof Number) {
            cells.put(name, text(value));
        } else {
            cells.put(name, harmless(text(value)));
        }
    }

    private static String text(@Nullable Object value) {
        // Never with an exponent, which not every spreadsheet reads.
        return value == null
                ? ""
                : value instanceof Double d ? BigDecimal.valueOf(d).toPlainString() : value.toString();
    }

    /**
     * Text that a spreadsheet would take for a formula gets an apostrophe in front, and control characters are marked,
     * since titles and file names come from anywhere.
     */
    private static String harmless(String text) {
        String safe = PlainText.marked(text);
        boolean formula = !safe.isEmpty() && "=+-@\uFFFD".indexOf(safe.charAt(0)) >= 0;
        return formula ? "'" + safe : safe;
    }
}
