package chainage.ledger;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/**
 * Something made of fields.
 *
 * @param fields in the order in which they are kept
 * @param demands what must hold between them
 * @param maker makes it of what its fields hold
 */
record Shape<T>(List<Field<T, ?>> fields, List<Demand<T>> demands, Function<Stated, T> maker) implements Value<T> {
    /** What must hold between fields, in words. */
    record Demand<T>(String words, Predicate<T> holds) {}

    /** What the fields hold, by their names; what was left out is not there. */
    record Stated(Map<String, Object> values) {
        <V> V get(Field<?, V> field) {
            V value = maybe(field);
            if (value == null) {
                throw new IllegalArgumentException("field " + field.name() + " is missing");
            }
            return value;
        }

        @SuppressWarnings("unchecked") // by this field's name lies what this field holds
        <V> @Nullable V maybe(Field<?, V> field) {
            return (V) values.get(field.name());
        }

        <V> V or(Field<?, V> field, V otherwise) {
            V value = maybe(field);
            return value == null ? otherwise : value;
        }
    }

    /** Collects the fields of a shape while it is declared. */
    static class Fields<T> {
        final List<Field<T, ?>> fields = new ArrayList<>();
        final List<Demand<T>> demands = new ArrayList<>();

        /** A field that is always there. */
        final <V> Field<T, V> field(String name, Value<V> value, Function<T, @Nullable V> part) {
            return add(new Field<>(name, value, true, part));
        }

        /** A field that may be left out. */
        final <V> Field<T, V> maybe(String name, Value<V> value, Function<T, @Nullable V> part) {
            return add(new Field<>(name, value, false, part));
        }

        final void demand(String words, Predicate<T> holds) {
            demands.add(new Demand<>(words, holds));
        }

        final <V> Field<T, V> add(Field<T, V> field) {
            fields.add(field);
            return field;
        }

        final Shape<T> shape(Function<Stated, T> maker) {
            return new Shape<>(List.copyOf(fields), List.copyOf(demands), maker);
        }
    }

    /** Declares the fields, and says what is made of them. */
    static <T> Shape<T> of(Function<Fields<T>, Function<Stated, T>> declaration) {
        Fields<T> fields = new Fields<>();
        return fields.shape(declaration.apply(fields));
    }

    @Override
    public Map<String, Object> kept(T value) {
        Map<String, Object> kept = new LinkedHashMap<>();
        fields.forEach(f -> f.keep(value, kept));
        return kept;
    }

    @Override
    public T read(Object kept) {
        if (!(kept instanceof Map<?, ?> from)) {
            throw new IllegalArgumentException(kept + " is no object");
        }
        Map<String, Object> values = new LinkedHashMap<>();
        fields.forEach(f -> f.read(from, values));
        return maker.apply(new Stated(values));
    }

    @Override
    public void check(T value) {
        fields.forEach(f -> f.check(value));
        for (Demand<T> d : demands) {
            if (!d.holds().test(value)) {
                throw new Misfit(null, d.words());
            }
        }
    }

    @Override
    public T with(T value, Rewrite change) {
        Map<String, Object> values = new LinkedHashMap<>();
        boolean another = false;
        for (Field<T, ?> f : fields) {
            another |= f.change(value, change, values);
        }
        return another ? maker.apply(new Stated(values)) : value;
    }

    /** What the fields hold, by their names. */
    Map<String, Object> values(T value) {
        Map<String, Object> values = new LinkedHashMap<>();
        fields.forEach(f -> f.state(value, values));
        return values;
    }

    /** The same with other values in some fields. */
    T with(T value, Map<String, Object> said) {
        Map<String, Object> values = values(value);
        values.putAll(said);
        return maker.apply(new Stated(values));
    }
}
