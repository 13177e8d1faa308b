package chainage.calendar;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import biweekly.Biweekly;
import biweekly.ICalVersion;
import biweekly.ICalendar;
import biweekly.component.VEvent;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Read back by biweekly, an independent reader and validator of RFC 5545. */
class CalendarTextTest {
    private static final Instant NOW = Instant.parse("2026-06-01T12:34:56Z");

    private static Reminder reminder(String summary, String description) {
        return new Reminder("treat-1@chainage", LocalDate.of(2026, 6, 14), summary, description);
    }

    private static VEvent readBack(String text) {
        ICalendar calendar = Biweekly.parse(text).first();
        assertTrue(
                calendar.validate(ICalVersion.V2_0).isEmpty(),
                () -> "not valid: " + calendar.validate(ICalVersion.V2_0));
        assertEquals(1, calendar.getEvents().size());
        return calendar.getEvents().get(0);
    }

    @Test
    void anIndependentReaderFindsWhatWasMeant() {
        VEvent event = readBack(CalendarText.of(List.of(reminder("Treat Moss", "By 2026-06-20.\nCare.")), NOW));
        assertEquals("treat-1@chainage", event.getUid().getValue());
        assertEquals("Treat Moss", event.getSummary().getValue());
        assertEquals("By 2026-06-20.\nCare.", event.getDescription().getValue());
        assertEquals(false, event.getDateStart().getValue().hasTime());
        assertEquals(
                "2026-06-14",
                event.getDateStart()
                        .getValue()
                        .getRawComponents()
                        .toString(false, true)
                        .substring(0, 10));
        assertEquals(NOW, event.getDateTimeStamp().getValue().toInstant());
        assertEquals(1, event.getAlarms().size());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "commas, semicolons; and \\ backslashes",
                "a colon: and \"quotes\"",
                "BEGIN:VEVENT",
                "one\nEND:VEVENT\nBEGIN:VEVENT",
                "äöü ß – 山道 🚵 repeated äöü ß – 山道 🚵 repeated äöü ß – 山道 🚵 repeated äöü ß – 山道 🚵",
                "",
            })
    void noTextBreaksOut(String hostile) {
        VEvent event = readBack(CalendarText.of(List.of(reminder(hostile.replace("\n", " "), hostile)), NOW));
        assertEquals(hostile, event.getDescription().getValue());
    }

    @Test
    void controlCharactersAreLeftOut() {
        String text = CalendarText.of(List.of(reminder("a\u0007b\u001b[31mc\rd", "x\tz")), NOW);
        VEvent event = readBack(text);
        assertEquals("ab[31mc\nd", event.getSummary().getValue());
        assertEquals("xz", event.getDescription().getValue());
    }

    @Test
    void linesEndAndFoldAsTheStandardSays() {
        String text = CalendarText.of(List.of(reminder("é".repeat(300), "x".repeat(1000))), NOW);
        assertTrue(text.endsWith("\r\n"));
        for (String line : text.split("\r\n", -1)) {
            assertTrue(line.getBytes(StandardCharsets.UTF_8).length <= 75, line);
            assertEquals(-1, line.indexOf('\n'));
        }
    }

    @Test
    void aLaterExportIsAHigherRevisionOfTheSameEvent() {
        List<Reminder> reminders = List.of(reminder("a", "b"));
        VEvent first = readBack(CalendarText.of(reminders, NOW));
        VEvent second = readBack(CalendarText.of(reminders, NOW.plusSeconds(60)));
        assertEquals(first.getUid(), second.getUid());
        assertTrue(second.getSequence().getValue() > first.getSequence().getValue());
    }

    @Test
    void noRemindersMakeAnEmptyCalendar() {
        assertEquals(
                0,
                Biweekly.parse(CalendarText.of(List.of(), NOW))
                        .first()
                        .getEvents()
                        .size());
    }

    @Test
    void aNameThatCouldBreakALineIsNoUid() {
        assertThrows(IllegalArgumentException.class, () -> new Reminder("a\r\nb", LocalDate.EPOCH, "", ""));
    }
}
