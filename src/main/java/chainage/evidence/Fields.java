package chainage.evidence;

import chainage.ledger.Cleaning;
import chainage.ledger.Method;
import chainage.quantity.PlainText;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The fields of a JSON object, asked for by name; what they hold was written by others.
 *
 * <p>Each question throws {@link IllegalArgumentException} where the answer cannot be, with what and how to mend it.
 */
record Fields(Map<String, Object> fields) {
    /** The fields of a line so far: whose it is, where that is told. */
    static Map<String, Object> of(int rider) {
        Map<String, Object> fields = new LinkedHashMap<>();
        if (rider > 0) {
            fields.put("rider", rider);
        }
        return fields;
    }

    /** A product as all lines have it. */
    static void product(Map<String, Object> fields, Method method, @Nullable String product) {
        fields.put("method", method.word());
        if (product != null) {
            fields.put("product", product);
        }
    }

    Fields only(Set<String> known) {
        for (String name : fields.keySet()) {
            if (!known.contains(name)) {
                throw new IllegalArgumentException(
                        "it has a field \"" + PlainText.marked(name) + "\", which no version knows");
            }
        }
        return this;
    }

    boolean has(String name) {
        return fields.containsKey(name);
    }

    String text(String name) {
        if (fields.get(name) instanceof String s) {
            return s;
        }
        throw new IllegalArgumentException(said(name) + "; it must be a text");
    }

    /** A whole number; 0 where there is none. */
    int whole(String name, int most) {
        int value = !has(name) ? 0 : fields.get(name) instanceof Integer i && i > 0 ? i : -1;
        demand(value >= 0 && value <= most, name, "a number from 1 to " + most);
        return value;
    }

    double number(String name, double least, double most) {
        double value = fields.get(name) instanceof Number n ? n.doubleValue() : Double.NaN;
        demand(value >= least && value <= most, name, "a number from " + plain(least) + " to " + plain(most));
        return value;
    }

    private static String plain(double bound) {
        return bound == Math.rint(bound) ? String.valueOf((long) bound) : String.valueOf(bound);
    }

    boolean truth(String name) {
        if (fields.get(name) instanceof Boolean b) {
            return b;
        }
        throw new IllegalArgumentException(said(name) + "; it must be true or false");
    }

    /** One of some words, by its place. */
    int word(String name, List<String> words) {
        int place = words.indexOf(text(name));
        demand(place >= 0, name, "one of " + String.join(", ", words));
        return place;
    }

    Method method() {
        Method method = Method.of(text("method")).orElse(Method.NONE);
        demand(
                method != Method.NONE || text("method").equals(Method.NONE.word()),
                "method",
                "a word of chainage explain factors");
        return method;
    }

    /** A method that a chain can be treated by. */
    Method treatedMethod() {
        Method method = method();
        demand(method != Method.NONE, "method", "a word of chainage explain factors");
        return method;
    }

    Cleaning cleaning() {
        Cleaning cleaning = Cleaning.of(text("cleaning")).orElse(null);
        if (cleaning == null) {
            throw new IllegalArgumentException(
                    "cleaning is " + PlainText.marked(text("cleaning")) + "; use none, on-bike, quick or deep");
        }
        return cleaning;
    }

    /** A product's word; null where it is not told. */
    @Nullable
    String product() {
        String product = has("product") ? text("product") : null;
        demand(
                product == null
                        || (product.length() <= 60 && !product.isBlank() && product.equals(PlainText.marked(product))),
                "product",
                "1 to 60 letters");
        return product;
    }

    RoadKilometres roads(String name) {
        if (fields.get(name) instanceof Map<?, ?> words) {
            return RoadKilometres.parse(words);
        }
        throw new IllegalArgumentException(said(name) + "; it must be kilometres by road");
    }

    /** Objects in a row, at least one and at most so many. */
    List<Fields> rows(String name, int most) {
        if (fields.get(name) instanceof List<?> rows && !rows.isEmpty() && rows.size() <= most) {
            return rows.stream().map(r -> of(r, name)).toList();
        }
        throw new IllegalArgumentException(
                name + (has(name) ? " is no such list" : " is missing") + "; it must be a list of 1 to " + most);
    }

    @SuppressWarnings("unchecked") // keys of an object are texts
    private static Fields of(@Nullable Object row, String name) {
        if (row instanceof Map<?, ?> object) {
            return new Fields((Map<String, Object>) object);
        }
        throw new IllegalArgumentException(
                name + " holds " + PlainText.marked(String.valueOf(row)) + "; it must hold objects");
    }

    void demand(boolean so, String name, String what) {
        if (!so) {
            throw new IllegalArgumentException(said(name) + "; it must be " + what);
        }
    }

    private String said(String name) {
        return has(name) ? name + " is " + PlainText.marked(String.valueOf(fields.get(name))) : name + " is missing";
    }
}
