package chainage.weather;

import java.time.Duration;
import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Finds the year and month of reports that carry only day, hour and minute. */
final class ReportTime {
    /** Hourly reports, with half an hour's grace; our choice. */
    private static final Duration ONE_ON = Duration.ofMinutes(90);

    /** A stamp in front of a report may be local time, or when it arrived. */
    private static final Duration MOST_APART = Duration.ofHours(36);

    private static final Pattern STAMP =
            Pattern.compile("(?<!\\d)(\\d{4})(?:[-/](\\d{2})[-/](\\d{2})[T ]+(\\d{2}):(\\d{2})"
                    + "|(\\d{2})(\\d{2})(\\d{2})(\\d{2})(?!\\d))");

    private static final Pattern MONTH_IN_NAME = Pattern.compile("(?<!\\d)((?:19|20)\\d{2})[-_. ]?(0[1-9]|1[0-2])"
            + "(?:[-_. ]?(?:0[1-9]|[12]\\d|3[01])(?:T?\\d{4}(?:\\d{2})?)?)?(?!\\d)");

    private final @Nullable YearMonth month;
    /** Last instant by station, for the one report of a month's file that already belongs to the next month. */
    private final Map<String, Instant> last = new HashMap<>();

    ReportTime(@Nullable YearMonth month) {
        this.month = month;
    }

    /** The month that a file's name holds; empty when it holds none, or several. */
    static Optional<YearMonth> monthIn(String fileName) {
        Matcher m = MONTH_IN_NAME.matcher(fileName);
        YearMonth found = null;
        while (m.find()) {
            YearMonth here = YearMonth.of(Integer.parseInt(m.group(1)), Integer.parseInt(m.group(2)));
            if (found != null && !found.equals(here)) {
                return Optional.empty();
            }
            found = here;
        }
        return Optional.ofNullable(found);
    }

    /** The last stamp in the text that stands before a report; null when there is none. */
    static @Nullable Instant stampIn(String text) {
        Matcher m = STAMP.matcher(text);
        Instant found = null;
        while (m.find()) {
            int first = m.group(2) != null ? 2 : 6;
            Instant here = instant(
                    Integer.parseInt(m.group(1)),
                    Integer.parseInt(m.group(first)),
                    Integer.parseInt(m.group(first + 1)),
                    Integer.parseInt(m.group(first + 2)),
                    Integer.parseInt(m.group(first + 3)));
            // Digits that are no date belong to something else.
            found = here == null ? found : here;
        }
        return found;
    }

    /**
     * When a report was made.
     *
     * @param stamp what stands before it; null for nothing, when the month given has to do
     * @throws WeatherException when there is no such instant, or no month to put it in
     */
    Instant of(String station, int day, int hour, int minute, @Nullable Instant stamp) throws WeatherException {
        Instant at = stamp != null ? near(day, hour, minute, stamp) : inMonth(station, day, hour, minute);
        last.put(station, at);
        return at;
    }

    private static Instant near(int day, int hour, int minute, Instant stamp) throws WeatherException {
        YearMonth around = YearMonth.from(stamp.atOffset(ZoneOffset.UTC));
        for (int months = -1; months <= 1; months++) {
            Optional<Instant> at = instant(around.plusMonths(months), day, hour, minute);
            if (at.isPresent() && Duration.between(stamp, at.get()).abs().compareTo(MOST_APART) <= 0) {
                return at.get();
            }
        }
        throw new WeatherException(
                String.format(
                        Locale.ROOT,
                        "day %02d at %02d:%02d does not fit the time before the report, %s",
                        day,
                        hour,
                        minute,
                        stamp),
                "correct one of them");
    }

    private Instant inMonth(String station, int day, int hour, int minute) throws WeatherException {
        if (month == null) {
            throw new WeatherException(
                    String.format(Locale.ROOT, "day %02d at %02d:%02d of no stated month", day, hour, minute),
                    "say which month it is, or keep year and month in the file's name");
        }
        Instant before = last.get(station);
        Optional<Instant> next = instant(month.plusMonths(1), day, hour, minute);
        // Files of a month often end with midnight of the next.
        if (before != null
                && next.isPresent()
                && !next.get().isBefore(before)
                && Duration.between(before, next.get()).compareTo(ONE_ON) <= 0) {
            return next.get();
        }
        return instant(month, day, hour, minute)
                .orElseThrow(() -> new WeatherException(
                        String.format(Locale.ROOT, "%s has no day %02d, %02d:%02d", month, day, hour, minute),
                        "check the month, or correct the report"));
    }

    private static @Nullable Instant instant(int year, int month, int day, int hour, int minute) {
        boolean date = year >= 1 && month >= 1 && month <= 12;
        return date ? instant(YearMonth.of(year, month), day, hour, minute).orElse(null) : null;
    }

    private static Optional<Instant> instant(YearMonth month, int day, int hour, int minute) {
        if (day < 1 || day > month.lengthOfMonth() || hour > 23 || minute > 59) {
            return Optional.empty();
        }
        return Optional.of(month.atDay(day).atTime(hour, minute).toInstant(ZoneOffset.UTC));
    }
}
