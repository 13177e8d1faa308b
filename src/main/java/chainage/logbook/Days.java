package chainage.logbook;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Days as people write them. */
public final class Days {
    /** Which of two small numbers is the day. */
    public enum Order {
        UNKNOWN,
        DAY_FIRST,
        MONTH_FIRST
    }

    private static final Pattern YEAR_FIRST =
            Pattern.compile("(\\d{4})([-/.\u2010-\u2013\u2212])(\\d{1,2})\\2(\\d{1,2})\\.?");
    private static final Pattern YEAR_LAST = Pattern.compile("(\\d{1,2})([-/.])\\s?(\\d{1,2})\\2\\s?(\\d{4}|\\d{2})");
    /** As English spreadsheets show them. */
    private static final Pattern MONTH_NAMED = Pattern.compile(
            "(?:(\\d{1,2})[. -]+)?(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*[., -]+(?:(\\d{1,2}),? +)?(\\d{4}|\\d{2})",
            Pattern.CASE_INSENSITIVE);

    private static final List<String> MONTHS =
            List.of("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec");

    private Days() {}

    /**
     * All days that a text can mean, in an order of day and month: none, one, or two.
     *
     * @param order which of day and month comes first where the year comes last; parted by full stops it is the day
     */
    public static List<LocalDate> of(String text, Order order) {
        Matcher first = YEAR_FIRST.matcher(text);
        List<LocalDate> days = new ArrayList<>();
        if (first.matches()) {
            add(days, number(first, 1), number(first, 3), number(first, 4));
            return days;
        }
        Matcher named = MONTH_NAMED.matcher(text);
        if (named.matches() && (named.group(1) == null) != (named.group(3) == null)) {
            int month = MONTHS.indexOf(named.group(2).toLowerCase(Locale.ROOT)) + 1;
            add(days, year(named.group(4)), month, number(named, named.group(1) == null ? 3 : 1));
            return days;
        }
        Matcher last = YEAR_LAST.matcher(text);
        if (last.matches()) {
            int year = year(last.group(4));
            if (order != Order.MONTH_FIRST) {
                add(days, year, number(last, 3), number(last, 1));
            }
            if (order != Order.DAY_FIRST && !last.group(2).equals(".")) {
                add(days, year, number(last, 1), number(last, 3));
            }
        }
        return days.stream().distinct().toList();
    }

    private static int year(String digits) {
        return Integer.parseInt(digits) + (digits.length() == 2 ? 2000 : 0);
    }

    private static int number(Matcher m, int group) {
        return Integer.parseInt(m.group(group));
    }

    private static void add(List<LocalDate> days, int year, int month, int day) {
        try {
            days.add(LocalDate.of(year, month, day));
        } catch (DateTimeException e) {
            // It cannot mean that.
        }
    }
}
