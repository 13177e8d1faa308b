package chainage.ledger;

import chainage.quantity.PlainText;
import chainage.quantity.UtcText;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;

/**
 * What a field of a fact holds: how it is kept, and what it can be. What is kept is a text, a number, a truth, or a list
 * or map of these.
 *
 * @param <T> immutable
 */
sealed interface Value<T> permits Value.Plain, Value.Items, Value.Choice, Shape {
    /** As it is kept; never null. */
    Object kept(T value);

    /**
     * What was kept.
     *
     * @throws IllegalArgumentException when it is nothing of this sort
     */
    T read(Object kept);

    /**
     * Refuses what cannot be.
     *
     * @throws Misfit when it is out of bounds
     */
    void check(T value);

    /** The same with a change made; itself where that changes nothing. */
    default T with(T value, Rewrite change) {
        return value;
    }

    /** A value that is not made of others. */
    sealed interface Plain<T> extends Value<T> {}

    /**
     * A text.
     *
     * @param least number of characters
     * @param most number of characters
     * @param plain true when none of them may steer a terminal
     */
    record Text(int least, int most, boolean plain) implements Plain<String> {
        @Override
        public Object kept(String value) {
            return value;
        }

        @Override
        public String read(Object kept) {
            return as(String.class, kept, "text");
        }

        @Override
        public void check(String value) {
            demand(
                    value.length() >= least && value.length() <= most,
                    null,
                    "a text of " + value.length() + " characters, not of " + least + " to " + most);
            demand(
                    !plain || value.equals(PlainText.marked(value)),
                    null,
                    "a text with characters that cannot be printed");
        }
    }

    /** The name of a bike, chain or product; a method's own word names its plain product. */
    record Name(Event.Named what) implements Plain<String> {
        static final Text TEXT = new Text(1, 60, true);

        @Override
        public Object kept(String value) {
            return value;
        }

        @Override
        public String read(Object kept) {
            return TEXT.read(kept);
        }

        @Override
        public void check(String value) {
            TEXT.check(value);
        }

        @Override
        public String with(String value, Rewrite change) {
            return change.name(what, value);
        }
    }

    /** The id of a ride, or its beginning. */
    record Ride() implements Plain<String> {
        static final Text TEXT = new Text(1, 64, true);

        @Override
        public Object kept(String value) {
            return value;
        }

        @Override
        public String read(Object kept) {
            return TEXT.read(kept);
        }

        @Override
        public void check(String value) {
            TEXT.check(value);
        }

        @Override
        public String with(String value, Rewrite change) {
            return change.ride(value);
        }
    }

    /** A number, from the least to the most. */
    record Real(double least, double most) implements Plain<Double> {
        @Override
        public Object kept(Double value) {
            demand(Double.isFinite(value), value, " is no number");
            return value;
        }

        @Override
        public Double read(Object kept) {
            return as(Number.class, kept, "number").doubleValue();
        }

        @Override
        public void check(Double value) {
            demand(value >= least && value <= most, value, " is not from " + least + " to " + most);
        }
    }

    /** A whole number, from the least to the most. */
    record Whole(long least, long most) implements Plain<Long> {
        @Override
        public Object kept(Long value) {
            return value;
        }

        @Override
        public Long read(Object kept) {
            return as(Number.class, kept, "number").longValue();
        }

        @Override
        public void check(Long value) {
            demand(value >= least && value <= most, value, " is not from " + least + " to " + most);
        }
    }

    /** A count, from the least to the most. */
    record Count(int least, int most) implements Plain<Integer> {
        @Override
        public Object kept(Integer value) {
            return value;
        }

        @Override
        public Integer read(Object kept) {
            return Math.toIntExact(as(Number.class, kept, "number").longValue());
        }

        @Override
        public void check(Integer value) {
            demand(value >= least && value <= most, value, " is not from " + least + " to " + most);
        }
    }

    record Truth() implements Plain<Boolean> {
        @Override
        public Object kept(Boolean value) {
            return value;
        }

        @Override
        public Boolean read(Object kept) {
            return as(Boolean.class, kept, "truth");
        }

        @Override
        public void check(Boolean value) {
            // Both are in bounds.
        }
    }

    /**
     * An instant, up to the end of 2099.
     *
     * @param firstYear the first in which it can lie
     * @param happened true when it is the fact's own date, which can be corrected
     */
    record Time(int firstYear, boolean happened) implements Plain<Instant> {
        static final int LAST_YEAR = 2099;

        @Override
        public Object kept(Instant value) {
            return UtcText.of(value);
        }

        @Override
        public Instant read(Object kept) {
            try {
                return UtcText.read(as(String.class, kept, "time"));
            } catch (DateTimeException e) {
                throw new IllegalArgumentException(e.getMessage(), e);
            }
        }

        @Override
        public void check(Instant value) {
            demand(
                    !value.isBefore(newYear(firstYear)) && value.isBefore(newYear(LAST_YEAR + 1)),
                    value,
                    " is not in the years " + firstYear + " to " + LAST_YEAR);
        }

        @Override
        public Instant with(Instant value, Rewrite change) {
            return happened ? change.date(value) : value;
        }

        private static Instant newYear(int year) {
            return LocalDate.of(year, 1, 1).atStartOfDay(ZoneOffset.UTC).toInstant();
        }
    }

    /**
     * One of a few, kept as its word.
     *
     * @param today the word of this version for one of an earlier version; any other as it is
     */
    record Word<E>(List<E> all, Function<E, String> word, UnaryOperator<String> today) implements Plain<E> {
        static <E extends Enum<E>> Word<E> of(Class<E> type, Function<E, String> word) {
            return of(type, word, w -> w);
        }

        static <E extends Enum<E>> Word<E> of(Class<E> type, Function<E, String> word, UnaryOperator<String> today) {
            return new Word<>(List.of(type.getEnumConstants()), word, today);
        }

        @Override
        public Object kept(E value) {
            return word.apply(value);
        }

        @Override
        public E read(Object kept) {
            String now = today.apply(String.valueOf(kept));
            for (E e : all) {
                if (word.apply(e).equals(now)) {
                    return e;
                }
            }
            throw new IllegalArgumentException("unknown word: " + kept);
        }

        @Override
        public void check(E value) {
            // Whatever it is, it is one of them.
        }
    }

    /**
     * A list.
     *
     * @param least number of members
     * @param most number of members
     */
    record Items<T>(Value<T> each, int least, int most) implements Value<List<T>> {
        @Override
        public Object kept(List<T> value) {
            List<Object> kept = new ArrayList<>(value.size());
            value.forEach(v -> kept.add(each.kept(v)));
            return kept;
        }

        @Override
        public List<T> read(Object kept) {
            List<T> read = new ArrayList<>();
            for (Object o : as(List.class, kept, "list")) {
                read.add(each.read(Objects.requireNonNull(o, "a list with a hole")));
            }
            return read;
        }

        @Override
        public void check(List<T> value) {
            demand(
                    value.size() >= least && value.size() <= most,
                    null,
                    "a list of " + value.size() + ", not of " + least + " to " + most);
            value.forEach(each::check);
        }

        @Override
        public List<T> with(List<T> value, Rewrite change) {
            return value.stream().map(v -> each.with(v, change)).toList();
        }
    }

    /**
     * One of several forms, told apart by a field that the others lack.
     *
     * @param forms of one without its own field the first that has it is meant
     */
    record Choice<T>(List<Form<? extends T>> forms) implements Value<T> {
        /**
         * One form.
         *
         * @param key the field that tells it
         */
        record Form<S>(String key, Class<S> type, Shape<S> shape) {}

        @Override
        public Object kept(T value) {
            return kept(form(value), value);
        }

        private static <S> Object kept(Form<S> form, Object value) {
            return form.shape().kept(form.type().cast(value));
        }

        @Override
        public T read(Object kept) {
            Map<?, ?> fields = as(Map.class, kept, "object");
            for (Form<? extends T> form : forms) {
                if (fields.get(form.key()) != null) {
                    return form.shape().read(kept);
                }
            }
            throw new IllegalArgumentException("unknown form: " + kept);
        }

        @Override
        public void check(T value) {
            check(form(value), value);
        }

        private static <S> void check(Form<S> form, Object value) {
            form.shape().check(form.type().cast(value));
        }

        private Form<? extends T> form(T value) {
            for (Form<? extends T> form : forms) {
                if (form.type().isInstance(value)) {
                    return form;
                }
            }
            throw new AssertionError(value);
        }
    }

    private static <T> T as(Class<T> type, Object kept, String what) {
        if (!type.isInstance(kept)) {
            throw new IllegalArgumentException(kept + " is no " + what);
        }
        return type.cast(kept);
    }

    private static void demand(boolean holds, @Nullable Object value, String bound) {
        if (!holds) {
            throw new Misfit(value, bound);
        }
    }
}
