package chainage.table;

import chainage.logbook.Days;
import chainage.logbook.Refusal;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A day, and the time of it where one is said. Midnight says none: so programs write a date alone.
 *
 * @param time null for none
 */
record When(LocalDate day, @Nullable LocalTime time) {
    private static final Pattern MOMENT = Pattern.compile(
            "(?<day>.+?)(?:[T, ]+(?<time>\\d{1,2}[:.]\\d\\d(?:[:.]\\d\\d(?:[.,]\\d+)?)?(?: ?[AaPp]\\.?[Mm]\\.?)?))?");

    /** Whether a cell can be a date, in any order. */
    static boolean isDate(String cell) {
        Matcher m = MOMENT.matcher(cell);
        return m.matches() && !Days.of(m.group("day"), Days.Order.UNKNOWN).isEmpty();
    }

    /**
     * Which of day and month comes first in a column: that which one of its dates cannot be read without.
     *
     * @return unknown where none tells, or they contradict each other
     */
    static Days.Order order(List<String> cells) {
        boolean day = false;
        boolean month = false;
        for (String cell : cells) {
            Matcher m = MOMENT.matcher(cell);
            // Full stops and names of months stand in one order alone, and tell nothing of the other dates.
            if (m.matches() && m.group("day").matches("\\d{1,2}[-/]\\d{1,2}[-/]\\d+")) {
                boolean asDay = !Days.of(m.group("day"), Days.Order.DAY_FIRST).isEmpty();
                boolean asMonth =
                        !Days.of(m.group("day"), Days.Order.MONTH_FIRST).isEmpty();
                day |= asDay && !asMonth;
                month |= asMonth && !asDay;
            }
        }
        return day == month ? Days.Order.UNKNOWN : day ? Days.Order.DAY_FIRST : Days.Order.MONTH_FIRST;
    }

    /**
     * Reads it.
     *
     * @param clock what a column of times holds; may be empty
     * @throws Refusal when it is none, or can be two
     */
    static When of(String cell, String clock, Days.Order order) throws Refusal {
        if (cell.isEmpty()) {
            throw new Refusal("there is no date in it", "write it such as 2026-03-01");
        }
        Matcher m = MOMENT.matcher(cell);
        List<LocalDate> days = m.matches() ? Days.of(m.group("day"), order) : List.of();
        if (days.isEmpty()) {
            throw new Refusal("\"" + cell + "\" is no date", "write it such as 2026-03-01");
        }
        if (days.size() > 1) {
            throw new Refusal(
                    "\"" + cell + "\" can be " + days.get(0) + " or " + days.get(1),
                    "say which comes first with --dates day-first or --dates month-first");
        }
        String typed = clock.isEmpty() ? m.group("time") : clock;
        LocalTime time = typed == null ? null : time(typed);
        return new When(days.get(0), LocalTime.MIDNIGHT.equals(time) ? null : time);
    }

    private static LocalTime time(String typed) throws Refusal {
        Matcher m = Pattern.compile("(\\d{1,2})[:.](\\d\\d)(?:[:.](\\d\\d))?(?:[.,]\\d+)?(?: ?([ap])\\.?m\\.?)?")
                .matcher(typed.strip().toLowerCase(Locale.ROOT));
        if (m.matches()) {
            int hour = Integer.parseInt(m.group(1));
            if (m.group(4) != null && hour >= 1 && hour <= 12) {
                hour = hour % 12 + (m.group(4).equals("p") ? 12 : 0);
            }
            int minute = Integer.parseInt(m.group(2));
            int second = m.group(3) == null ? 0 : Integer.parseInt(m.group(3));
            if (hour < 24 && minute < 60 && second < 60) {
                return LocalTime.of(hour, minute, second);
            }
        }
        throw new Refusal("\"" + typed + "\" is no time of day", "write it such as 19:30");
    }
}
