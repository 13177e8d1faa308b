package chainage.typed;

import chainage.quantity.LocalClock;
import chainage.quantity.Moment;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.util.Locale;

/** A point in time as the rider types it. */
public final class TypedMoment {
    static final String FORMS =
            "a date is 2026-03-01, \"2026-03-01 14:30\", 2026-03-01T14:30Z, today, yesterday or now";

    private TypedMoment() {}

    /**
     * Reads a moment.
     *
     * @throws CliError when the text is none of {@link #FORMS}
     */
    public static Moment of(String text, Instant now, LocalClock clock) {
        String t = TypedDate.padded(text.strip().toLowerCase(Locale.ROOT));
        LocalDate today = clock.day(now);
        try {
            if (t.equals("now")) {
                return new Moment(now, today, false);
            }
            if (t.equals("today")) {
                return bare(today, clock);
            }
            if (t.equals("yesterday")) {
                return bare(today.minusDays(1), clock);
            }
            if (t.length() == 10) {
                return bare(LocalDate.parse(t), clock);
            }
            if (t.matches("\\d\\d:\\d\\d")) {
                return timed(LocalDateTime.of(today, LocalTime.parse(t)), clock);
            }
            String iso = t.toUpperCase(Locale.ROOT).replaceFirst("^(\\d{4}-\\d\\d-\\d\\d) +", "$1T");
            if (iso.matches(".*(Z|[+-]\\d\\d:?\\d\\d)")) {
                Instant instant = OffsetDateTime.parse(iso).toInstant();
                return new Moment(instant, clock.day(instant), false);
            }
            return timed(LocalDateTime.parse(iso), clock);
        } catch (DateTimeException e) {
            throw CliError.usage("\"" + text + "\" is no date", TypedDate.hint(text, today, FORMS));
        }
    }

    private static Moment bare(LocalDate day, LocalClock clock) {
        return new Moment(clock.start(day), day, true);
    }

    private static Moment timed(LocalDateTime time, LocalClock clock) {
        return new Moment(clock.instant(time), time.toLocalDate(), false);
    }
}
