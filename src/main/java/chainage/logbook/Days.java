package chainage.logbook;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Days as people write them. */
final class Days {
    /** Which of two small numbers is the day. */
    enum Order {
        UNKNOWN,
        DAY_FIRST,
        MONTH_FIRST
    }

    private static final Pattern YEAR_FIRST =
            Pattern.compile("(\\d{4})([-/.\u2010-\u2013\u2212])(\\d{1,2})\\2(\\d{1,2})\\.?");
    private static final Pattern YEAR_LAST = Pattern.compile("(\\d{1,2})([-/.])\\s?(\\d{1,2})\\2\\s?(\\d{4}|\\d{2})");

    private Days() {}

    /**
     * All days that a text can mean, in an order of day and month: none, one, or two.
     *
     * @param order which of day and month comes first where the year comes last; parted by full stops it is the day
     */
    static List<LocalDate> of(String text, Order order) {
        Matcher first = YEAR_FIRST.matcher(text);
        List<LocalDate> days = new ArrayList<>();
        if (first.matches()) {
            add(days, number(first, 1), number(first, 3), number(first, 4));
            return days;
        }
        Matcher last = YEAR_LAST.matcher(text);
        if (last.matches()) {
            int year = number(last, 4) + (last.group(4).length() == 2 ? 2000 : 0);
            if (order != Order.MONTH_FIRST) {
                add(days, year, number(last, 3), number(last, 1));
            }
            if (order != Order.DAY_FIRST && !last.group(2).equals(".")) {
                add(days, year, number(last, 1), number(last, 3));
            }
        }
        return days.stream().distinct().toList();
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
