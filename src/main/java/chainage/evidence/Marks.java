package chainage.evidence;

import chainage.quantity.ContentDigest;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * What tells one rider from others: a number for each thing that was shown, the products' words left out. So few figures
 * that a thousand riders are held against each other at once, and that nothing can be read out of them.
 */
public final class Marks {
    /** From so many on two riders are held against each other by their share. */
    private static final int LEAST_ALIKE = 5;

    /** From this share of the shorter one's on they are the same rider; our choice. */
    private static final double ALIKE = 0.75;

    private final long[] ascending;

    private Marks(LongStream marks) {
        ascending = marks.sorted().toArray();
    }

    /** Of what was kept of others before. */
    public static Marks of(List<Long> each) {
        return new Marks(each.stream().mapToLong(Long::longValue));
    }

    /** Of lines, whatever their order. */
    static Marks of(Stream<String> lines) {
        return new Marks(lines.mapToLong(line -> Long.parseUnsignedLong(
                ContentDigest.of(line.getBytes(StandardCharsets.UTF_8)).hex().substring(0, 16), 16)));
    }

    /** All of them, ascending. */
    public List<Long> each() {
        return Arrays.stream(ascending).boxed().toList();
    }

    /**
     * True when the two can hardly be two riders: most of what the shorter one shows the other shows as well. A file made
     * later holds what the earlier one held; chance does not make five treatments alike in kilometres, roads and end.
     */
    public boolean isSameRider(Marks other) {
        int shorter = Math.min(ascending.length, other.ascending.length);
        if (shorter < LEAST_ALIKE) {
            return equals(other);
        }
        return ascending.length == shorter ? other.has(ascending) : has(other.ascending);
    }

    /** Whether enough of the shorter one's marks are here; it gives up as soon as that cannot be. */
    private boolean has(long[] shorter) {
        int mayMiss = (int) (shorter.length - ALIKE * shorter.length);
        int i = 0;
        for (long mark : shorter) {
            while (i < ascending.length && ascending[i] < mark) {
                i++;
            }
            if (i < ascending.length && ascending[i] == mark) {
                i++;
            } else if (--mayMiss < 0) {
                return false;
            }
        }
        return true;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof Marks m && Arrays.equals(ascending, m.ascending);
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(ascending);
    }

    @Override
    public String toString() {
        return ascending.length + " marks";
    }
}
