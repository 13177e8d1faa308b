package chainage.quantity;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A half-open interval of time, [from, to).
 *
 * @param from first instant inside
 * @param to first instant after it; null while the end is open
 */
public record Interval(Instant from, @Nullable Instant to) {
    public Interval {
        if (to != null && to.isBefore(from)) {
            throw new IllegalArgumentException("interval ends before it starts: " + from + " .. " + to);
        }
    }

    /** True from the first instant on, false from {@code to} on. */
    public boolean contains(Instant t) {
        return !t.isBefore(from) && (to == null || t.isBefore(to));
    }

    /** True when the two share an instant; intervals that only touch do not. An empty interval overlaps nothing. */
    public boolean overlaps(Interval other) {
        if (isEmpty() || other.isEmpty()) {
            return false;
        }
        return (other.to == null || from.isBefore(other.to)) && (to == null || other.from.isBefore(to));
    }

    /** True when it ends where it starts, so that it holds no instant. */
    public boolean isEmpty() {
        return from.equals(to);
    }
}
