package chainage.evidence;

import chainage.ledger.Cleaning;
import chainage.ledger.Method;
import chainage.quantity.PlainText;
import chainage.treatment.Life;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.jr.ob.JSON;
import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** A treatment as a line of JSON. */
final class EvidenceLines {
    private static final Set<String> FIELDS =
            Set.of("rider", "method", "product", "cleaning", "load", "km", "last_ride_km", "end");
    private static final List<String> ENDS = List.of("noisy", "silent", "quiet", "running");
    private static final List<Life.End> MEANT =
            List.of(Life.End.NOISY, Life.End.RENEWED, Life.End.QUIET, Life.End.RUNNING);
    private static final int MOST_RIDERS = 100_000;

    private EvidenceLines() {}

    /**
     * A line that was read.
     *
     * @param rider number within the file; 0 where none is told
     */
    record Parsed(int rider, TreatmentEvidence treatment) {}

    /** The word of an end. */
    static String word(Life.End end) {
        return ENDS.get(MEANT.indexOf(end));
    }

    /** Without a rider. */
    static String line(TreatmentEvidence t) {
        return write(fields(t, 0));
    }

    static Map<String, Object> fields(TreatmentEvidence t, int rider) {
        Map<String, Object> fields = new LinkedHashMap<>();
        if (rider > 0) {
            fields.put("rider", rider);
        }
        fields.put("method", t.method().word());
        if (t.product() != null) {
            fields.put("product", t.product());
        }
        fields.put("cleaning", t.cleaning().word());
        fields.put("load", t.load());
        fields.put("km", t.km().words());
        if (t.end() == Life.End.NOISY) {
            fields.put("last_ride_km", t.last().words());
        }
        fields.put("end", word(t.end()));
        return fields;
    }

    static String write(Map<String, Object> fields) {
        try {
            return JSON.std.asString(fields);
        } catch (IOException e) {
            throw new AssertionError("plain maps can always be written", e);
        }
    }

    /**
     * The fields of a line.
     *
     * @throws IllegalArgumentException when it is no JSON object
     */
    static Map<String, Object> object(String line) {
        try (JsonParser parser = JSON.std.createParser(line)) {
            parser.enable(JsonParser.Feature.STRICT_DUPLICATE_DETECTION);
            Map<String, Object> fields = JSON.std.mapFrom(parser);
            if (fields == null || parser.nextToken() != null) {
                throw new IllegalArgumentException("it is no JSON object alone");
            }
            return fields;
        } catch (IOException e) {
            throw new IllegalArgumentException("it is no JSON object", e);
        }
    }

    static Parsed parse(String line) {
        return parse(object(line));
    }

    /**
     * Reads a line.
     *
     * @throws IllegalArgumentException when it says what cannot be, with what and how to mend it
     */
    static Parsed parse(Map<String, Object> fields) {
        for (String name : fields.keySet()) {
            if (!FIELDS.contains(name)) {
                throw new IllegalArgumentException("it has a field \"" + name + "\", which no version knows");
            }
        }
        int rider = !fields.containsKey("rider") ? 0 : fields.get("rider") instanceof Integer i ? i : -1;
        demand(rider >= 0 && rider <= MOST_RIDERS, "rider", fields, "a number from 1 to " + MOST_RIDERS);
        Method method = Method.of(text(fields, "method")).orElse(Method.NONE);
        demand(method != Method.NONE, "method", fields, "a word of chainage explain factors");
        String product = fields.containsKey("product") ? text(fields, "product") : null;
        demand(
                product == null
                        || (product.length() <= 60 && !product.isBlank() && product.equals(PlainText.marked(product))),
                "product",
                fields,
                "1 to 60 letters");
        Cleaning cleaning = Cleaning.of(text(fields, "cleaning")).orElse(null);
        Object load = fields.get("load");
        double times = load instanceof Number n ? n.doubleValue() : Double.NaN;
        demand(times >= 0 && times <= 100, "load", fields, "a number from 0 to 100");
        int end = ENDS.indexOf(text(fields, "end"));
        demand(end >= 0, "end", fields, "one of " + String.join(", ", ENDS));
        Roads km = roads(fields, "km");
        demand(km.total() > 0, "km", fields, "kilometres by road, at least " + Roads.STEP);
        boolean noisy = MEANT.get(end) == Life.End.NOISY;
        demand(
                noisy == fields.containsKey("last_ride_km"),
                "last_ride_km",
                fields,
                "the ride in which it was heard, and only of a treatment that was");
        Roads last = noisy ? roads(fields, "last_ride_km") : Roads.NONE;
        if (!last.within(km)) {
            throw new IllegalArgumentException("last_ride_km is more than km on some road");
        }
        if (cleaning == null) {
            throw new IllegalArgumentException(
                    "cleaning is " + fields.get("cleaning") + "; use none, on-bike, quick or deep");
        }
        return new Parsed(rider, new TreatmentEvidence(method, product, cleaning, times, km, last, MEANT.get(end)));
    }

    private static Roads roads(Map<String, Object> fields, String name) {
        if (fields.get(name) instanceof Map<?, ?> words) {
            return Roads.parse(words);
        }
        throw new IllegalArgumentException(said(name, fields) + "; it must be kilometres by road");
    }

    private static String text(Map<String, Object> fields, String name) {
        if (fields.get(name) instanceof String s) {
            return s;
        }
        throw new IllegalArgumentException(said(name, fields) + "; it must be a text");
    }

    private static void demand(boolean so, String name, Map<String, Object> fields, String what) {
        if (!so) {
            throw new IllegalArgumentException(said(name, fields) + "; it must be " + what);
        }
    }

    private static String said(String name, Map<String, Object> fields) {
        @Nullable Object value = fields.get(name);
        return fields.containsKey(name)
                ? name + " is " + PlainText.marked(String.valueOf(value))
                : name + " is missing";
    }
}
