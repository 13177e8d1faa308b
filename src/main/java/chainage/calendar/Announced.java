package chainage.calendar;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.Map;
import java.util.Optional;

/**
 * An event as a calendar announced it.
 *
 * @param sequence its revision, from 0
 * @param day local, the whole of it
 * @param cancelled whether it was called off already
 */
public record Announced(String uid, long sequence, LocalDate day, String summary, boolean cancelled) {
    /** From the properties of an event by their names with parameters; empty where they are not as we write them. */
    static Optional<Announced> of(Map<String, String> event) {
        String uid = event.getOrDefault("UID", "");
        String sequence = event.getOrDefault("SEQUENCE", "");
        if (!uid.matches(Reminder.UID) || !sequence.matches("[0-9]{1,9}")) {
            return Optional.empty();
        }
        try {
            return Optional.of(new Announced(
                    uid,
                    Long.parseLong(sequence),
                    LocalDate.parse(event.getOrDefault("DTSTART;VALUE=DATE", ""), DateTimeFormatter.BASIC_ISO_DATE),
                    event.getOrDefault("SUMMARY", ""),
                    CalendarText.CANCELLED.equals(event.get("STATUS"))));
        } catch (DateTimeException e) {
            return Optional.empty();
        }
    }
}
