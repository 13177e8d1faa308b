package chainage.calendar;

import java.time.LocalDate;

/**
 * Something to do on a day.
 *
 * @param uid the same in every export of the same thing, so that a calendar updates it; see RFC 5545 §3.8.4.7
 * @param day local, the whole of it
 * @param summary one line
 * @param description may hold line breaks
 */
public record Reminder(String uid, LocalDate day, String summary, String description) {
    static final String UID = "[A-Za-z0-9@.-]+";

    public Reminder {
        if (!uid.matches(UID)) {
            throw new IllegalArgumentException("uid " + uid);
        }
    }
}
