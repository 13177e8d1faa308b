package chainage.calendar;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;

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

    private static final DateTimeFormatter UTC =
            DateTimeFormatter.ofPattern("yyyyMMdd'T'HHmmss'Z'", Locale.ROOT).withZone(ZoneOffset.UTC);

    private CalendarText() {}

    /**
     * The calendar.
     *
     * @param reminders in the order in which they are written
     * @param now when the dates were worked out; from 2020 on
     */
    public static String of(List<Reminder> reminders, Instant now) {
        StringBuilder b = new StringBuilder();
        line(b, "BEGIN:VCALENDAR");
        line(b, "VERSION:2.0");
        line(b, "PRODID:" + PRODUCT);
        line(b, "CALSCALE:GREGORIAN");
        line(b, "METHOD:PUBLISH");
        long revision = Math.max(0, Duration.between(FIRST_REVISION, now).toMinutes());
        for (Reminder r : reminders) {
            line(b, "BEGIN:VEVENT");
            line(b, "UID:" + r.uid());
            line(b, "DTSTAMP:" + UTC.format(now));
            line(b, "SEQUENCE:" + revision);
            line(b, "DTSTART;VALUE=DATE:" + DateTimeFormatter.BASIC_ISO_DATE.format(r.day()));
            line(b, "SUMMARY:" + text(r.summary()));
            line(b, "DESCRIPTION:" + text(r.description()));
            // The day stays free for other things.
            line(b, "TRANSP:TRANSPARENT");
            line(b, "BEGIN:VALARM");
            line(b, "ACTION:DISPLAY");
            line(b, "DESCRIPTION:" + text(r.summary()));
            // At eight in the morning; our choice.
            line(b, "TRIGGER;RELATED=START:PT8H");
            line(b, "END:VALARM");
            line(b, "END:VEVENT");
        }
        line(b, "END:VCALENDAR");
        return b.toString();
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
