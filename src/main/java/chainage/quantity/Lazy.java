package chainage.quantity;

import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/** What is worked out when it is first asked for. Equal to another by what it is. For one thread. */
public final class Lazy<T> {
    private @Nullable Supplier<T> made;
    private @Nullable T value;

    public Lazy(Supplier<T> made) {
        this.made = made;
    }

    /** What is known already. */
    public static <T> Lazy<T> known(T value) {
        Lazy<T> known = new Lazy<>(() -> value);
        known.get();
        return known;
    }

    public T get() {
        T known = value;
        if (known == null) {
            if (made == null) {
                throw new IllegalStateException("neither known nor to be worked out");
            }
            known = made.get();
            value = known;
            made = null;
        }
        return known;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Lazy<?> l && get().equals(l.get());
    }

    @Override
    public int hashCode() {
        return get().hashCode();
    }

    @Override
    public String toString() {
        return value == null ? "not asked for yet" : value.toString();
    }
}
