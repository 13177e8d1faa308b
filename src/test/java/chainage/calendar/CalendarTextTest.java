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

    private static String text(List<Reminder> reminders, Instant now) {
        return CalendarText.of("chains", reminders, List.of(), now);
    }

    /** RFC 5545 §3.8.1.11: a status of an event; §3.8.7.4: a later revision has a higher sequence. */
    @Test
    void whatIsGoneIsCancelledAndWhatComesBackIsConfirmed() {
        Reminder moss = reminder("Treat Moss, now; \\now/", "x".repeat(200) + "\nSUMMARY:no");
        String first = text(List.of(moss), NOW);
        // In the same minute, so that the clock alone makes no higher revision.
        String gone = CalendarText.of("chains", List.of(), CalendarText.announced(first), NOW);
        VEvent cancelled = readBack(gone);
        assertEquals("CANCELLED", cancelled.getStatus().getValue());
        assertEquals(moss.uid(), cancelled.getUid().getValue());
        assertEquals(moss.summary(), cancelled.getSummary().getValue());
        assertEquals(List.of(), cancelled.getAlarms());
        assertEquals(readBack(first).getDateStart(), cancelled.getDateStart());
        assertTrue(sequence(gone) > sequence(first));
        String still = CalendarText.of("chains", List.of(), CalendarText.announced(gone), NOW.plusSeconds(600));
        assertEquals(sequence(gone), sequence(still), "cancelled once");
        String back = CalendarText.of("chains", List.of(moss), CalendarText.announced(still), NOW);
        assertEquals("CONFIRMED", readBack(back).getStatus().getValue());
        assertTrue(sequence(back) > sequence(still));
        Instant yearAfter = Instant.parse("2027-06-15T00:00:00Z");
        assertEquals(
                0,
                Biweekly.parse(CalendarText.of("chains", List.of(), CalendarText.announced(still), yearAfter))
                        .first()
                        .getEvents()
                        .size());
    }

    private static int sequence(String calendar) {
        return readBack(calendar).getSequence().getValue();
    }

    @Test
    void theCalendarHasAName() {
        ICalendar calendar = Biweekly.parse(text(List.of(), NOW)).first();
        assertEquals("chains", calendar.getNames().get(0).getValue());
        assertEquals("chains", calendar.getExperimentalProperty("X-WR-CALNAME").getValue());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "BEGIN:VEVENT\nEND:VEVENT",
                "BEGIN:VEVENT\nUID:a b\nSEQUENCE:1\nDTSTART;VALUE=DATE:20260601\nEND:VEVENT",
                "BEGIN:VEVENT\nUID:a\nSEQUENCE:9999999999\nDTSTART;VALUE=DATE:20260601\nEND:VEVENT",
                "BEGIN:VEVENT\nUID:a\nSEQUENCE:1\nDTSTART;VALUE=DATE:20261301\nEND:VEVENT",
            })
    void whatWeDidNotWriteIsPassedOver(String foreign) {
        assertEquals(List.of(), CalendarText.announced(foreign));
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
        VEvent event = readBack(text(List.of(reminder("Treat Moss", "By 2026-06-20.\nCare.")), NOW));
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
        VEvent event = readBack(text(List.of(reminder(hostile.replace("\n", " "), hostile)), NOW));
        assertEquals(hostile, event.getDescription().getValue());
    }

    @Test
    void controlCharactersAreLeftOut() {
        String text = text(List.of(reminder("a\u0007b\u001b[31mc\rd", "x\tz")), NOW);
        VEvent event = readBack(text);
        assertEquals("ab[31mc\nd", event.getSummary().getValue());
        assertEquals("xz", event.getDescription().getValue());
    }

    @Test
    void linesEndAndFoldAsTheStandardSays() {
        String text = text(List.of(reminder("é".repeat(300), "x".repeat(1000))), NOW);
        assertTrue(text.endsWith("\r\n"));
        for (String line : text.split("\r\n", -1)) {
            assertTrue(line.getBytes(StandardCharsets.UTF_8).length <= 75, line);
            assertEquals(-1, line.indexOf('\n'));
        }
    }

    @Test
    void aLaterExportIsAHigherRevisionOfTheSameEvent() {
        List<Reminder> reminders = List.of(reminder("a", "b"));
        VEvent first = readBack(text(reminders, NOW));
        VEvent second = readBack(text(reminders, NOW.plusSeconds(60)));
        assertEquals(first.getUid(), second.getUid());
        assertTrue(second.getSequence().getValue() > first.getSequence().getValue());
    }

    @Test
    void noRemindersMakeAnEmptyCalendar() {
        assertEquals(0, Biweekly.parse(text(List.of(), NOW)).first().getEvents().size());
    }

    @Test
    void aNameThatCouldBreakALineIsNoUid() {
        assertThrows(IllegalArgumentException.class, () -> new Reminder("a\r\nb", LocalDate.EPOCH, "", ""));
    }
}
