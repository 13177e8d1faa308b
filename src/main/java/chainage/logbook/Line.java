package chainage.logbook;

import chainage.quantity.LocalClock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * A line that states something.
 *
 * @param number in the file, from 1
 * @param day local
 * @param time of that day; null for its beginning
 * @param offset of the time from UTC; null for that of the place
 * @param words of a command, without the program's name; at least one
 */
public record Line(
        int number,
        LocalDate day,
        @Nullable LocalTime time,
        @Nullable ZoneOffset offset,
        List<String> words) {
    public Line {
        words = List.copyOf(words);
    }

    /** What was at an instant; with the offset where the local time is two instants, as when clocks are put back. */
    public static Line of(Instant at, LocalClock clock, List<String> words) {
        LocalDateTime time = clock.time(at);
        ZoneOffset offset = clock.instant(time).equals(at) ? null : clock.offset(at);
        return new Line(1, time.toLocalDate(), time.toLocalTime(), offset, words);
    }

    /** The line in the one way in which it is always written: what differs in quotes and spaces alone is the same. */
    public String text() {
        return day + (time == null ? "" : " " + time) + (offset == null ? "" : " " + offset) + " " + command();
    }

    /** The words alone, quoted where need be. */
    String command() {
        return words.stream().map(Words::quoted).collect(Collectors.joining(" "));
    }

    /** When it was. */
    public Instant at(LocalClock clock) {
        LocalTime t = time;
        if (t == null) {
            return clock.start(day);
        }
        return offset == null ? clock.instant(day.atTime(t)) : day.atTime(t).toInstant(offset);
    }
}
