package chainage.ridefile.fit;

import chainage.ride.Sample;
import java.time.Instant;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Values of a message in the program's own units; what is absent or marked invalid is NaN, null or empty. */
final class MessageValues {
    /** 1989-12-31T00:00Z, from which FIT counts its seconds. */
    private static final long EPOCH_SECONDS = 631_065_600;

    private static final double DEGREES_PER_SEMICIRCLE = 180.0 / (1L << 31);

    private MessageValues() {}

    /** The first of two fields that has a value: the finer one that newer devices write, and the older one. */
    static double number(Message m, int field, int older) {
        double value = m.number(field);
        return Double.isNaN(value) ? m.number(older) : value;
    }

    static double degrees(Message m, int field) {
        return m.number(field) * DEGREES_PER_SEMICIRCLE;
    }

    static long millis(Message m, int field) {
        long seconds = m.whole(field);
        return seconds < 0 ? Sample.NO_TIME : (seconds + EPOCH_SECONDS) * 1000;
    }

    static @Nullable Instant instant(Message m, int field) {
        long millis = millis(m, field);
        return millis == Sample.NO_TIME ? null : Instant.ofEpochMilli(millis);
    }

    /** A constant's name as a lower-case word; empty for none. */
    static String word(@Nullable Enum<?> constant) {
        return constant == null || constant.name().equals("INVALID")
                ? ""
                : constant.name().toLowerCase(Locale.ROOT);
    }
}
