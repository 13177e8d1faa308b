package chainage.ridefile.xml;

import chainage.quantity.Decimals;
import chainage.ride.Sample;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Numbers and times as devices write them into text; what cannot be read is counted, not thrown. */
public final class Values {
    private int unreadable;
    private int unreadableTimes;
    private @Nullable ZoneOffset offset;

    /** A fresh count of unreadable values. */
    public Values() {}

    /** How many numbers were there and could not be read. */
    public int unreadable() {
        return unreadable;
    }

    /** How many times were there and could not be read. */
    public int unreadableTimes() {
        return unreadableTimes;
    }

    /**
     * The local time's offset from UTC, by the first time that has one; null where none has. UTC itself, be it written Z
     * or +00:00, says nothing of where that was: most writers use it everywhere.
     */
    public @Nullable ZoneOffset offset() {
        return offset;
    }

    /** Says what could not be read, if anything. */
    public void remark(List<String> remarks) {
        if (unreadable > 0) {
            remarks.add("values that are no numbers, left out: " + unreadable);
        }
        if (unreadableTimes > 0) {
            remarks.add("times that cannot be read, left out: " + unreadableTimes);
        }
    }

    /** A number; NaN when the text holds none. A decimal comma is read as a point. */
    public double number(String text) {
        if (text.isEmpty() || text.length() > 40) {
            unreadable += text.isEmpty() ? 0 : 1;
            return Double.NaN;
        }
        double plain = Decimals.of(text);
        return Double.isNaN(plain) ? other(text) : plain;
    }

    /** A number that is not just digits and a point. */
    private double other(String text) {
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            // Java would also read "NaN", "Infinity", hexadecimal and a trailing d or f.
            if ("+-.,eE0123456789".indexOf(c) < 0) {
                unreadable++;
                return Double.NaN;
            }
        }
        try {
            return Double.parseDouble(text.indexOf('.') < 0 ? text.replace(',', '.') : text);
        } catch (NumberFormatException e) {
            unreadable++;
            return Double.NaN;
        }
    }

    /**
     * An instant as ISO 8601 has it, in milliseconds since 1970; {@link Sample#NO_TIME} when the text holds none.
     * Without an offset it is UTC, as both formats' schemas say. Seconds and their fraction may be missing; the date and
     * the time may stand apart by a space.
     */
    public long millis(String raw) {
        String text = raw.strip();
        if (text.isEmpty()) {
            return Sample.NO_TIME;
        }
        try {
            TimeText time = new TimeText(text);
            long millis = time.millis();
            if (offset == null && time.offset != 0) {
                offset = ZoneOffset.ofTotalSeconds(time.offset);
            }
            return millis;
        } catch (RuntimeException e) {
            // DateTimeException and the exceptions of a text that is too short or no number: all mean "no time".
            unreadableTimes++;
            return Sample.NO_TIME;
        }
    }

    private static final class TimeText {
        private final String text;
        private int at;
        /** Seconds. */
        private int offset;

        TimeText(String text) {
            this.text = text;
        }

        long millis() {
            int year = digits(4);
            expect('-');
            int month = digits(2);
            expect('-');
            int day = digits(2);
            long seconds = LocalDate.of(year, month, day).toEpochDay() * 86_400;
            long fraction = 0;
            if (at < text.length()) {
                if (text.charAt(at) != 'T' && text.charAt(at) != 't' && text.charAt(at) != ' ') {
                    throw new IllegalArgumentException(text);
                }
                while (text.charAt(at) == 'T' || text.charAt(at) == 't' || text.charAt(at) == ' ') {
                    at++;
                }
                int hour = limited(digits(2), 24);
                expect(':');
                int minute = limited(digits(2), 59);
                seconds += hour * 3600L + minute * 60L;
                if (at < text.length() && text.charAt(at) == ':') {
                    at++;
                    seconds += limited(digits(2), 60);
                    fraction = fraction();
                }
                offset = offset();
                seconds -= offset;
            }
            return seconds * 1000 + fraction;
        }

        private long fraction() {
            if (at >= text.length() || (text.charAt(at) != '.' && text.charAt(at) != ',')) {
                return 0;
            }
            at++;
            long millis = 0;
            long unit = 100;
            while (at < text.length() && digit(text.charAt(at))) {
                millis += (text.charAt(at) - '0') * unit;
                unit /= 10;
                at++;
            }
            return millis;
        }

        private int offset() {
            while (at < text.length() && text.charAt(at) == ' ') {
                at++;
            }
            if (at >= text.length()) {
                return 0;
            }
            char sign = text.charAt(at++);
            if (sign == 'Z' || sign == 'z') {
                end();
                return 0;
            }
            if (sign != '+' && sign != '-') {
                throw new IllegalArgumentException(text);
            }
            int hours = digits(2);
            int minutes = 0;
            if (at < text.length()) {
                at += text.charAt(at) == ':' ? 1 : 0;
                minutes = limited(digits(2), 59);
            }
            end();
            int total = ZoneOffset.ofHoursMinutes(hours, minutes).getTotalSeconds();
            return sign == '-' ? -total : total;
        }

        private int digits(int count) {
            int value = 0;
            for (int i = 0; i < count; i++) {
                char c = text.charAt(at++);
                if (!digit(c)) {
                    throw new IllegalArgumentException(text);
                }
                value = value * 10 + (c - '0');
            }
            return value;
        }

        private static int limited(int value, int most) {
            if (value > most) {
                throw new IllegalArgumentException("" + value);
            }
            return value;
        }

        private static boolean digit(char c) {
            return c >= '0' && c <= '9';
        }

        private void expect(char c) {
            if (text.charAt(at++) != c) {
                throw new IllegalArgumentException(text);
            }
        }

        private void end() {
            if (at != text.length()) {
                throw new IllegalArgumentException(text);
            }
        }
    }
}
