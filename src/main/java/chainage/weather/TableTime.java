package chainage.weather;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Reads the times of a table: ISO 8601 with or without offset, {@code 2026-03-04 11:00}, {@code 04.03.2026 11:00},
 * {@code 202603041100}, {@code 2026030411}, seconds or milliseconds since 1970. A day first with slashes is refused,
 * since half the world writes the month first.
 *
 * <p>Local times: where clocks go forward, a time that was skipped is refused. Where they go back, an hour comes twice;
 * the second time that it comes in the table it is the later one. An hour that stands only once is the earlier one.
 */
final class TableTime {
    private static final Pattern YEAR_FIRST = Pattern.compile(
            "(\\d{4})[-/.](\\d{1,2})[-/.](\\d{1,2})[T ]+(\\d{1,2}):(\\d{2})(?::(\\d{2})(?:[.,]\\d+)?)?(.*)");
    private static final Pattern DAY_FIRST =
            Pattern.compile("(\\d{1,2})\\.(\\d{1,2})\\.(\\d{4})[T ]+(\\d{1,2}):(\\d{2})(?::(\\d{2}))?(.*)");
    private static final Pattern DIGITS = Pattern.compile("(\\d{4})(\\d{2})(\\d{2})(\\d{2})(\\d{2})?(\\d{2})?");
    private static final Pattern SECONDS = Pattern.compile("[0-9]{9,10}");
    private static final Pattern MILLIS = Pattern.compile("[0-9]{13}");
    private static final Pattern OFFSET = Pattern.compile("[+-]\\d{2}(?::?\\d{2})?");

    private final ZoneId zone;

    /** The last two instants of a station, to tell the two passes of a repeated hour apart. */
    private record Course(Instant last, boolean backwards) {}

    private final Map<String, Course> courses = new HashMap<>();

    TableTime(ZoneId zone) {
        this.zone = zone;
    }

    /** @throws WeatherException when the text is no time, or one that the clocks skipped */
    Instant read(String station, String text) throws WeatherException {
        Instant at = parse(station, text);
        Course before = courses.get(station);
        courses.put(station, new Course(at, before != null && at.isBefore(before.last())));
        return at;
    }

    private Instant parse(String station, String text) throws WeatherException {
        try {
            Matcher m = YEAR_FIRST.matcher(text);
            if (m.matches()) {
                return instant(station, text, m, new int[] {1, 2, 3});
            }
            m = DAY_FIRST.matcher(text);
            if (m.matches()) {
                return instant(station, text, m, new int[] {3, 2, 1});
            }
            // Ten digits that begin as a year would be an epoch of 2030 or later.
            boolean year = text.startsWith("19") || text.startsWith("20");
            m = DIGITS.matcher(text);
            if (year && m.matches()) {
                return at(station, text, local(m, new int[] {1, 2, 3}), "");
            }
            if (SECONDS.matcher(text).matches()) {
                return Instant.ofEpochSecond(Long.parseLong(text));
            }
            if (MILLIS.matcher(text).matches()) {
                return Instant.ofEpochMilli(Long.parseLong(text));
            }
        } catch (DateTimeException e) {
            throw new WeatherException("no such time: " + BadLine.quote(text), "correct it");
        }
        throw new WeatherException(
                "time " + BadLine.quote(text) + " has no known form",
                "write 2026-03-04 11:00, 04.03.2026 11:00, 202603041100 or seconds since 1970");
    }

    private Instant instant(String station, String text, Matcher m, int[] yearMonthDay) throws WeatherException {
        return at(station, text, local(m, yearMonthDay), m.group(7).strip());
    }

    private static LocalDateTime local(Matcher m, int[] yearMonthDay) {
        int hour = number(m, 4);
        // 24:00 ends a day.
        boolean midnight = hour == 24 && number(m, 5) == 0 && number(m, 6) == 0;
        LocalDateTime t = LocalDateTime.of(
                number(m, yearMonthDay[0]),
                number(m, yearMonthDay[1]),
                number(m, yearMonthDay[2]),
                midnight ? 0 : hour,
                number(m, 5),
                number(m, 6));
        return midnight ? t.plusDays(1) : t;
    }

    private static int number(Matcher m, int group) {
        return m.group(group) == null ? 0 : Integer.parseInt(m.group(group));
    }

    private Instant at(String station, String text, LocalDateTime local, String offset) throws WeatherException {
        if (offset.equals("Z") || offset.equals("UTC") || offset.equals("GMT")) {
            return local.toInstant(ZoneOffset.UTC);
        }
        if (OFFSET.matcher(offset).matches()) {
            return local.toInstant(ZoneOffset.of(offset));
        }
        if (!offset.isEmpty()) {
            throw new WeatherException(
                    "time " + BadLine.quote(text) + " ends in " + BadLine.quote(offset),
                    "write an offset such as +02:00");
        }
        List<ZoneOffset> valid = zone.getRules().getValidOffsets(local);
        if (valid.isEmpty()) {
            throw new WeatherException(
                    "time " + BadLine.quote(text) + " was skipped by the clocks in " + zone,
                    "say in which zone the table is; it may be UTC or without daylight saving");
        }
        Instant earlier = local.toInstant(valid.get(0));
        if (valid.size() == 1) {
            return earlier;
        }
        Instant later = local.toInstant(valid.get(1));
        Course before = courses.get(station);
        if (before == null) {
            return earlier;
        }
        if (before.backwards()) {
            return later.isBefore(before.last()) ? later : earlier;
        }
        return earlier.isAfter(before.last()) ? earlier : later;
    }
}
