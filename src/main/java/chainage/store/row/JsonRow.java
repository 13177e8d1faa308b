package chainage.store.row;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** A JSON object under construction or being read, in plain maps and lists; nothing is bound by reflection. */
public final class JsonRow {
    private final Map<String, Object> fields;

    public JsonRow() {
        this(new LinkedHashMap<>());
    }

    private JsonRow(Map<String, Object> fields) {
        this.fields = fields;
    }

    /**
     * Reads an object.
     *
     * @throws IllegalArgumentException when the text is no JSON object
     */
    public static JsonRow parse(String text) {
        try (JsonParser parser = JSON.std.createParser(text)) {
            Map<String, Object> fields = JSON.std.mapFrom(parser);
            if (fields == null || parser.nextToken() != null) {
                throw new IllegalArgumentException("no JSON object alone: " + text);
            }
            return new JsonRow(fields);
        } catch (IOException e) {
            throw new IllegalArgumentException("no JSON object: " + e.getMessage(), e);
        }
    }

    /** Texts, numbers, truths, lists and maps of these, by name. */
    static JsonRow of(Map<String, Object> fields) {
        return new JsonRow(fields);
    }

    Map<String, Object> fields() {
        return fields;
    }

    /** Adds a field; null adds none. */
    public JsonRow with(String name, @Nullable Object value) {
        if (value instanceof Double d && !Double.isFinite(d)) {
            throw new IllegalArgumentException(name + " is " + d);
        }
        if (value instanceof JsonRow j) {
            fields.put(name, j.fields);
        } else if (value != null) {
            fields.put(name, value);
        }
        return this;
    }

    public String text(String name) {
        return need(name, optionalText(name));
    }

    @Nullable
    public String optionalText(String name) {
        return as(String.class, name);
    }

    public double real(String name) {
        return need(name, optionalReal(name));
    }

    @Nullable
    public Double optionalReal(String name) {
        Number n = as(Number.class, name);
        return n == null ? null : n.doubleValue();
    }

    public long integer(String name) {
        return need(name, as(Number.class, name)).longValue();
    }

    public boolean truth(String name) {
        return need(name, optionalTruth(name));
    }

    @Nullable
    Boolean optionalTruth(String name) {
        return as(Boolean.class, name);
    }

    @SuppressWarnings("unchecked") // a JSON object's keys are texts
    @Nullable
    public JsonRow optionalObject(String name) {
        Map<String, Object> value = as(Map.class, name);
        return value == null ? null : new JsonRow(value);
    }

    public JsonRow object(String name) {
        return need(name, optionalObject(name));
    }

    /** A list's members; empty when the field is absent. */
    List<?> list(String name) {
        List<?> value = as(List.class, name);
        return value == null ? List.of() : value;
    }

    public List<String> texts(String name) {
        List<String> texts = new ArrayList<>();
        for (Object o : list(name)) {
            texts.add((String) o);
        }
        return texts;
    }

    List<Double> reals(String name) {
        List<Double> reals = new ArrayList<>();
        for (Object o : list(name)) {
            reals.add(((Number) o).doubleValue());
        }
        return reals;
    }

    List<Integer> integers(String name) {
        List<Integer> integers = new ArrayList<>();
        for (Object o : list(name)) {
            integers.add(((Number) o).intValue());
        }
        return integers;
    }

    /** Compact text: no white space, fields in the order they were added. */
    @Override
    public String toString() {
        return write(fields);
    }

    static String write(Object tree) {
        try {
            return JSON.std.asString(tree);
        } catch (IOException e) {
            throw new AssertionError("plain maps and lists can always be written", e);
        }
    }

    private <T> @Nullable T as(Class<T> type, String name) {
        Object value = fields.get(name);
        if (value != null && !type.isInstance(value)) {
            throw new IllegalArgumentException("field " + name + " is " + value);
        }
        return type.cast(value);
    }

    private static <T> T need(String name, @Nullable T value) {
        if (value == null) {
            throw new IllegalArgumentException("field " + name + " is missing");
        }
        return value;
    }
}
