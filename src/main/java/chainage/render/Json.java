package chainage.render;

import chainage.quantity.Estimate;
import chainage.quantity.PlainText;
import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** One JSON object, built field by field in the order in which it is printed. */
public final class Json {
    private static final JSON PRINTER =
            JSON.std.with(JSON.Feature.PRETTY_PRINT_OUTPUT).with(JSON.Feature.WRITE_NULL_PROPERTIES);

    private final Map<String, @Nullable Object> fields = new LinkedHashMap<>();
    private @Nullable String rows;

    /** A text, whole number, boolean, collection or null; instants in UTC; anything else as its own text. */
    public Json put(String name, @Nullable Object value) {
        fields.put(name, field(value));
        return this;
    }

    /** Not every thing that can be gone through is a list: a path is one of names, and yet a text. */
    private static @Nullable Object field(@Nullable Object value) {
        if (value instanceof Json j) {
            return j.fields;
        }
        if (value instanceof Collection<?> c) {
            List<@Nullable Object> list = new ArrayList<>();
            c.forEach(o -> list.add(field(o)));
            return list;
        }
        return value == null || value instanceof Number || value instanceof Boolean ? value : value.toString();
    }

    /** A list of objects; the first that is put so is what a spreadsheet gets, an empty one too. */
    Json rows(String name, List<?> objects) {
        rows = rows == null ? name : rows;
        return put(name, objects);
    }

    /** The name of the field that holds the rows; null where none was put so. */
    @Nullable
    String rows() {
        return rows;
    }

    /** A figure rounded to so many decimals; null when it is not known. */
    public Json number(String name, double value, int decimals) {
        if (Double.isNaN(value) || Double.isInfinite(value)) {
            return put(name, null);
        }
        double scale = Math.pow(10, decimals);
        double rounded = Math.rint(value * scale) / scale + 0.0; // no negative zero
        return put(name, decimals == 0 ? (Object) (long) rounded : (Object) rounded);
    }

    /** Low, likely and high, each rounded to so many decimals; null when there is no estimate. */
    public Json estimate(String name, @Nullable Estimate e, int decimals) {
        return put(
                name,
                e == null
                        ? null
                        : new Json()
                                .number("low", e.low(), decimals)
                                .number("likely", e.likely(), decimals)
                                .number("high", e.high(), decimals));
    }

    /** The fields as they are printed: texts, numbers, booleans, lists and maps of them, or null. */
    public Map<String, @Nullable Object> fields() {
        return fields;
    }

    /** As it is printed, over several lines. */
    public String text() {
        try {
            return PlainText.escaped(PRINTER.asString(fields));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
