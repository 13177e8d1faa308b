package chainage.calendar;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Writes reminders as an iCalendar stream (RFC 5545): all-day events that leave the day free, each with an alarm.
 *
 * <p>Our own, since what is written is a fixed handful of properties; the tests read it back with an independent parser.
 */
public final class CalendarText {
    /** By this a file of ours is told from any other (RFC 5545 §3.7.3). */
    public static final String PRODUCT = "-//chainage//dates for chains//EN";

    /** Octets of a line without its end (RFC 5545 §3.1). */
    private static final int LINE = 75;

    /** Revisions are counted in minutes since then, so that a later export is a higher one (RFC 5545 §3.8.7.4). */
    private static final Instant FIRST_REVISION = Instant.parse("2020-01-01T00:00:00Z");

    /** After so many days a date that was cancelled is left out; our choice. */
    private static final int KEPT_DAYS = 365;

    /** RFC 5545 §3.8.1.11. */
    static final String CANCELLED = "CANCELLED";

    private static final DateTimeFormatter UTC =
            DateTimeFormatter.ofPattern("yyyyMMdd'T'HHmmss'Z'", Locale.ROOT).withZone(ZoneOffset.UTC);

    private static final Pattern ESCAPED = Pattern.compile("\\\\(.)");

    private CalendarText() {}

    /**
     * The calendar. What an earlier one announced and these do not is announced as cancelled, until a year after its day:
     * left out, it would stay in the rider's own calendar for ever.
     *
     * @param name of the calendar, for programs that show one
     * @param reminders in the order in which they are written
     * @param earlier what the calendar announced when it was written before; empty for a new one
     * @param now when the dates were worked out; from 2020 on
     */
    public static String of(String name, List<Reminder> reminders, List<Announced> earlier, Instant now) {
        Map<String, Announced> before = new HashMap<>();
        earlier.forEach(a -> before.put(a.uid(), a));
        StringBuilder b = new StringBuilder();
        line(b, "BEGIN:VCALENDAR");
        line(b, "VERSION:2.0");
        line(b, "PRODID:" + PRODUCT);
        line(b, "CALSCALE:GREGORIAN");
        line(b, "METHOD:PUBLISH");
        // RFC 7986 §5.1, and what calendars understood before it.
        line(b, "NAME:" + text(name));
        line(b, "X-WR-CALNAME:" + text(name));
        long revision = Math.max(0, Duration.between(FIRST_REVISION, now).toMinutes());
        for (Reminder r : reminders) {
            Announced a = before.remove(r.uid());
            line(b, "BEGIN:VEVENT");
            head(b, r.uid(), a == null ? revision : Math.max(revision, a.sequence() + 1), r.day(), r.summary(), now);
            line(b, "STATUS:CONFIRMED");
            line(b, "DESCRIPTION:" + text(r.description()));
            line(b, "BEGIN:VALARM");
            line(b, "ACTION:DISPLAY");
            line(b, "DESCRIPTION:" + text(r.summary()));
            // At eight in the morning; our choice.
            line(b, "TRIGGER;RELATED=START:PT8H");
            line(b, "END:VALARM");
            line(b, "END:VEVENT");
        }
        LocalDate kept = LocalDate.ofInstant(now, ZoneOffset.UTC).minusDays(KEPT_DAYS);
        for (Announced a : earlier) {
            if (before.remove(a.uid()) != null && a.day().isAfter(kept)) {
                line(b, "BEGIN:VEVENT");
                // Cancelled once, it stays the same revision.
                long sequence = a.cancelled() ? a.sequence() : Math.max(revision, a.sequence() + 1);
                head(b, a.uid(), sequence, a.day(), a.summary(), now);
                line(b, "STATUS:" + CANCELLED);
                line(b, "END:VEVENT");
            }
        }
        line(b, "END:VCALENDAR");
        return b.toString();
    }

    private static void head(StringBuilder b, String uid, long sequence, LocalDate day, String summary, Instant now) {
        line(b, "UID:" + uid);
        line(b, "DTSTAMP:" + UTC.format(now));
        line(b, "SEQUENCE:" + sequence);
        line(b, "DTSTART;VALUE=DATE:" + DateTimeFormatter.BASIC_ISO_DATE.format(day));
        line(b, "SUMMARY:" + text(summary));
        // The day stays free for other things.
        line(b, "TRANSP:TRANSPARENT");
    }

    /** What a calendar that we wrote announces; what is not as we write it is passed over. */
    public static List<Announced> announced(String calendar) {
        List<Announced> all = new ArrayList<>();
        Map<String, String> event = new HashMap<>();
        for (String line : calendar.replaceAll("\r?\n ", "").split("\r?\n", -1)) {
            if (line.equals("BEGIN:VEVENT")) {
                event.clear();
            } else if (line.equals("END:VEVENT")) {
                Announced.of(event).ifPresent(all::add);
            } else if (line.indexOf(':') > 0) {
                // An alarm's description comes after the event's own.
                event.putIfAbsent(line.substring(0, line.indexOf(':')), plain(line.substring(line.indexOf(':') + 1)));
            }
        }
        return all;
    }

    /** A value of the type TEXT as it was meant. */
    private static String plain(String text) {
        return ESCAPED.matcher(text)
                .replaceAll(m -> Matcher.quoteReplacement(m.group(1).equals("n") ? "\n" : m.group(1)));
    }

    /** A value of the type TEXT (RFC 5545 §3.3.11): other control characters than line breaks are left out. */
    private static String text(String value) {
        return value.replaceAll("\\R", "\n")
                .replaceAll("[\\p{Cc}&&[^\n]]", "")
                .replace("\\", "\\\\")
                .replace(";", "\\;")
                .replace(",", "\\,")
                .replace("\n", "\\n");
    }

    /** Folds a line at 75 octets, never inside a character. */
    private static void line(StringBuilder b, String content) {
        int octets = 0;
        for (int i = 0; i < content.length(); ) {
            int c = content.codePointAt(i);
            String character = Character.toString(c);
            int size = character.getBytes(StandardCharsets.UTF_8).length;
            if (octets + size > LINE) {
                b.append("\r\n ");
                octets = 1;
            }
            b.append(character);
            octets += size;
            i += Character.charCount(c);
        }
        b.append("\r\n");
    }
}
