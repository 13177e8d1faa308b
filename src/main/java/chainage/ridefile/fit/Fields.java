package chainage.ridefile.fit;

import chainage.ride.Sample;
import com.garmin.fit.Fit;
import com.garmin.fit.Mesg;
import java.time.Instant;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Values of a message; what is absent or marked invalid is NaN, −1, null or empty. */
final class Fields {
    /** 1989-12-31T00:00Z, from which FIT counts its seconds. */
    private static final long EPOCH_SECONDS = 631_065_600;

    private static final double DEGREES_PER_SEMICIRCLE = 180.0 / (1L << 31);

    private Fields() {}

    static double number(Mesg m, int field) {
        Double value = m.getFieldDoubleValue(field, 0, Fit.SUBFIELD_INDEX_MAIN_FIELD);
        return value == null ? Double.NaN : value;
    }

    /** The first of two fields that has a value: the finer one that newer devices write, and the older one. */
    static double number(Mesg m, int field, int older) {
        double value = number(m, field);
        return Double.isNaN(value) ? number(m, older) : value;
    }

    static long whole(Mesg m, int field) {
        Long value = m.getFieldLongValue(field, 0, Fit.SUBFIELD_INDEX_MAIN_FIELD);
        return value == null ? -1 : value;
    }

    static double degrees(Mesg m, int field) {
        return number(m, field) * DEGREES_PER_SEMICIRCLE;
    }

    static long millis(Mesg m, int field) {
        long seconds = whole(m, field);
        return seconds < 0 ? Sample.NO_TIME : (seconds + EPOCH_SECONDS) * 1000;
    }

    static @Nullable Instant instant(Mesg m, int field) {
        long millis = millis(m, field);
        return millis == Sample.NO_TIME ? null : Instant.ofEpochMilli(millis);
    }

    static String text(Mesg m, int field) {
        String value = m.getFieldStringValue(field, 0, Fit.SUBFIELD_INDEX_MAIN_FIELD);
        return value == null ? "" : value.strip();
    }

    /** A constant's name as a lower-case word; empty for none. */
    static String word(@Nullable Enum<?> constant) {
        return constant == null || constant.name().equals("INVALID")
                ? ""
                : constant.name().toLowerCase(Locale.ROOT);
    }
}
