package chainage.ledger;

import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * A field of a fact.
 *
 * @param name as it is kept
 * @param needed true when it cannot be left out
 * @param part what it holds of the whole; null when it is left out
 * @param <T> the whole
 * @param <V> what it holds
 */
record Field<T, V>(String name, Value<V> value, boolean needed, Function<T, @Nullable V> part) {
    void keep(T whole, Map<String, Object> into) {
        V v = part.apply(whole);
        if (v != null) {
            into.put(name, value.kept(v));
        }
    }

    void state(T whole, Map<String, Object> into) {
        V v = part.apply(whole);
        if (v != null) {
            into.put(name, v);
        }
    }

    void read(Map<?, ?> from, Map<String, Object> into) {
        Object kept = from.get(name);
        if (kept != null) {
            try {
                into.put(name, value.read(kept));
            } catch (IllegalArgumentException e) {
                throw new IllegalArgumentException("field " + name + ": " + e.getMessage(), e);
            }
        } else if (needed) {
            throw new IllegalArgumentException("field " + name + " is missing");
        }
    }

    void check(T whole) {
        V v = part.apply(whole);
        try {
            if (v != null) {
                value.check(v);
            }
        } catch (Misfit e) {
            throw e.in(name);
        }
    }

    /** True when it is another with that change. */
    boolean change(T whole, Rewrite change, Map<String, Object> into) {
        V before = part.apply(whole);
        if (before == null) {
            return false;
        }
        V after = value.with(before, change);
        into.put(name, after);
        return !after.equals(before);
    }

    /** The same field of what was said anew. */
    @SuppressWarnings("unchecked") // by this field's name lies what this field holds
    Field<Event.Changed, V> said() {
        return new Field<>(name, value, false, c -> (V) c.said().get(name));
    }
}
