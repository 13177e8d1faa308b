package chainage.render;

import chainage.page.Cell;
import chainage.quantity.Estimate;
import chainage.quantity.LocalClock;
import chainage.standing.Dates;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Figures and names as people read them.
 *
 * @param imperial miles in place of kilometres
 * @param clock of dates
 */
public record Formatter(boolean imperial, LocalClock clock) {
    private static final double METRES_PER_MILE = 1609.344;
    private static final Pattern NOTHING = Pattern.compile("-0(?:[.]0*)?");
    private static final DateTimeFormatter LOCAL = DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HH:mmxxx", Locale.ROOT);
    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT);

    /** With the time of one zone. */
    public Formatter(boolean imperial, ZoneId zone) {
        this(imperial, LocalClock.of(zone));
    }

    /** The home zone. */
    public ZoneId zone() {
        return clock.zone();
    }

    /** Metres as kilometres or miles. */
    public double ofMetres(double metres) {
        return metres / (imperial ? METRES_PER_MILE : 1000);
    }

    /** The same of an interval. */
    public Estimate ofMetres(Estimate metres) {
        return new Estimate(ofMetres(metres.low()), ofMetres(metres.likely()), ofMetres(metres.high()));
    }

    /** Kilometres or miles, for the head of a column. */
    public String unit() {
        return imperial ? "mi" : "km";
    }

    /** A distance with its unit, whole from 100 on, else with one decimal. */
    public String distance(double metres) {
        double v = ofMetres(metres);
        String unit = " " + unit();
        if (Math.abs(v) < 0.05) {
            return "0" + unit;
        }
        return fixed(v, Math.abs(v) < 99.95 ? 1 : 0) + unit;
    }

    /** The figure alone, with one decimal, for a column whose head names the unit. */
    public String plain(double metres) {
        return fixed(ofMetres(metres), 1);
    }

    /** A figure with so many decimals; one that rounds to nothing has no sign, one that is not known is a dash. */
    public static String fixed(double value, int decimals) {
        if (Double.isNaN(value)) {
            return "–";
        }
        String text = String.format(Locale.ROOT, "%." + decimals + "f", value);
        return text.startsWith("-") && NOTHING.matcher(text).matches() ? text.substring(1) : text;
    }

    /** A whole speed with its unit. */
    public String speed(double metresPerSecond) {
        return speed(metresPerSecond, 0);
    }

    /** A speed with its unit and so many decimals. */
    public String speed(double metresPerSecond, int decimals) {
        return fixed(ofMetres(metresPerSecond * 3600), decimals) + " " + speedUnit();
    }

    /** What speeds are in. */
    public String speedUnit() {
        return imperial ? "mph" : "km/h";
    }

    /** What comes by the metre, by a thousand kilometres or miles. */
    public double perThousand(double perMetre) {
        return 1000 * perMetre / ofMetres(1);
    }

    /** What is left, or by how much a limit is passed. */
    public String left(double metres) {
        return over(metres, distance(Math.abs(metres)));
    }

    /** The same in whole kilometres or miles with a sign, for a table. */
    public String leftWhole(double metres) {
        return whole(metres) + " " + unit();
    }

    /** The same without its unit. */
    public String whole(double metres) {
        return Long.toString(Math.round(ofMetres(metres)));
    }

    private static String over(double metres, String distance) {
        return metres < 0 && !distance.startsWith("0 ") ? distance + " overdue" : distance;
    }

    /** The same of a difference: more than nothing has a plus sign. */
    public static String signed(double value, int decimals) {
        String text = fixed(value, decimals);
        return text.startsWith("-") || text.startsWith("–") ? text : "+" + text;
    }

    /** From one figure to another; a dash where they are not known. */
    public static String range(double low, double high, int decimals) {
        return Double.isNaN(low) || Double.isNaN(high) ? "–" : fixed(low, decimals) + "–" + fixed(high, decimals);
    }

    /** A share of one in whole per cent. */
    public static String percent(double share) {
        return fixed(share * 100, 0) + " %";
    }

    public static String elongation(double percent) {
        return fixed(percent, 2);
    }

    /** A figure with as many decimals as it has, at most three. */
    public static String number(double value) {
        String text = fixed(value, 3);
        return text.contains(".") ? text.replaceFirst("[.]?0+$", "") : text;
    }

    public String date(Instant t) {
        return localDay(t).toString();
    }

    /** Its month, such as 2026-03. */
    public String month(Instant t) {
        return date(t).substring(0, 7);
    }

    public LocalDate localDay(Instant t) {
        return clock.day(t);
    }

    /** A date as a cell of the page. */
    public Cell cell(Instant t) {
        return Cell.date(date(t), date(t));
    }

    /** Days since 1970 of the zone's own calendar, with the time of day as a fraction. */
    public double day(Instant t) {
        LocalDateTime z = clock.time(t);
        return z.toLocalDate().toEpochDay() + z.toLocalTime().toSecondOfDay() / 86_400.0;
    }

    /** A time by the home zone, wherever the rider was. */
    public String homeTime(Instant t) {
        return TIME.format(t.atZone(zone()));
    }

    public String time(Instant t) {
        return TIME.format(clock.time(t));
    }

    /** A local time with its offset from UTC, such as {@code 2026-09-01T00:30+09:00}. */
    public String local(Instant t) {
        return LOCAL.format(t.atOffset(clock.offset(t)));
    }

    /** The likely date, or "now", or a dash when no date can be given. */
    public String due(@Nullable Dates dates, boolean due) {
        if (due) {
            return "now";
        }
        return dates == null ? "–" : date(dates.likely());
    }

    /** The same for a date that may be years ahead: then only its month, or that it is far, since no day can be meant. */
    public String dueRoughly(@Nullable Dates dates, boolean due, Instant now) {
        if (due || dates == null) {
            return due(dates, due);
        }
        long days = Duration.between(now, dates.likely()).toDays();
        return days > 3652 ? far(now) : days > 365 ? month(dates.likely()) : date(dates.likely());
    }

    /** What stands for dates more than ten years ahead: the year after which they lie, and a plus. */
    public String far(Instant now) {
        return clock.day(now).getYear() + 10 + "+";
    }

    /** A share as a count, such as {@code 1 in 10}. */
    public static String oneIn(double share) {
        double of = 1 / share;
        return Math.abs(of - Math.rint(of)) < 0.005 * of
                ? "1 in " + number(Math.rint(of))
                : number(100 * share) + " in 100";
    }

    public static String count(long n, String one, String many) {
        return n + " " + (n == 1 ? one : many);
    }
}
