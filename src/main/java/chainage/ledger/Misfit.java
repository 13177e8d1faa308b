package chainage.ledger;

import org.jspecify.annotations.Nullable;

/**
 * What a fact holds lies out of its bounds. The message is for the log of who wrote the entry; who tells it to the rider
 * has the value by its type.
 */
public final class Misfit extends IllegalArgumentException {
    private static final long serialVersionUID = 1L;

    private final String field;
    private final transient @Nullable Object value;
    private final String bound;

    /**
     * Of a value.
     *
     * @param value what cannot be; null where the bound says it all
     * @param bound what it should be, read on from the value
     */
    Misfit(@Nullable Object value, String bound) {
        this("", value, bound, null);
    }

    private Misfit(String field, @Nullable Object value, String bound, @Nullable Throwable cause) {
        super(field + (value == null ? "" : value) + bound, cause);
        this.field = field;
        this.value = value;
        this.bound = bound;
    }

    /** The same, found in a field. */
    Misfit in(String name) {
        return new Misfit("field " + name + ": " + field, value, bound, this);
    }

    /** The fields that lead to it, ready to stand in front of the value; empty for the fact as a whole. */
    public String field() {
        return field;
    }

    /** What cannot be, such as an instant; null where the bound says it all. */
    public @Nullable Object value() {
        return value;
    }

    /** What it should be, read on from the value. */
    public String bound() {
        return bound;
    }
}
