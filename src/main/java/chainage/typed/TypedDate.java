package chainage.typed;

import chainage.logbook.Days;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoField;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Dates in forms that are not ours: read where they can be nothing else, else what they may mean. */
public final class TypedDate {
    private static final Pattern YEAR_FIRST = Pattern.compile("(\\d{4})-(\\d{1,2})(?:-(\\d{1,2}))?(?![-\\d])(.*)");

    private TypedDate() {}

    /** The text with noughts before months and days of one figure, where its year comes first. */
    static String padded(String typed) {
        Matcher m = YEAR_FIRST.matcher(typed);
        return m.matches()
                ? m.group(1) + "-" + twoDigits(m.group(2)) + (m.group(3) == null ? "" : "-" + twoDigits(m.group(3)))
                        + m.group(4)
                : typed;
    }

    private static String twoDigits(String figures) {
        return figures.length() == 1 ? "0" + figures : figures;
    }

    /** True for a day as people write it, in any order. */
    public static boolean isDate(String typed) {
        return !days(typed).isEmpty();
    }

    /** What may be meant: a day, two where day and month may change places, or a month by its name; else what is said otherwise. */
    static String hint(String typed, LocalDate today, String otherwise) {
        List<LocalDate> days = days(typed);
        if (!days.isEmpty()) {
            return Alike.question(days.stream().map(LocalDate::toString).toList());
        }
        try {
            YearMonth month = YearMonth.of(
                    today.getYear(),
                    DateTimeFormatter.ofPattern(typed.strip().length() == 3 ? "MMM" : "MMMM", Locale.ENGLISH)
                            .parse(named(typed))
                            .get(ChronoField.MONTH_OF_YEAR));
            YearMonth last = month.isAfter(YearMonth.from(today)) ? month.minusYears(1) : month;
            return "a month is written with its year, such as " + last;
        } catch (DateTimeException e) {
            return otherwise;
        }
    }

    /** The word as names of months begin. */
    private static String named(String typed) {
        String t = typed.strip().toLowerCase(Locale.ROOT);
        return t.isEmpty() ? t : t.substring(0, 1).toUpperCase(Locale.ROOT) + t.substring(1);
    }

    private static List<LocalDate> days(String typed) {
        String t = typed.strip();
        // Between full stops the day comes first where they are usual, but not all who type them keep to that.
        return Days.of(t.matches("\\d+\\.\\d+\\.\\d+") ? t.replace('.', '/') : t, Days.Order.UNKNOWN);
    }
}
