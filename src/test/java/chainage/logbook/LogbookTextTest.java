package chainage.logbook;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.ledger.Event;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class LogbookTextTest {
    private static String read(String line) {
        try {
            Line read = LogbookText.line(1, line);
            return read == null ? "" : read.text();
        } catch (Refusal e) {
            return "refused: " + e.reason();
        }
    }

    // The marks that phones and editors put in place of what was typed: Unicode, "General Punctuation" and "Latin-1
    // Supplement". Words and quotes as IEEE Std 1003.1, 2.2, parts them, but for the apostrophe.
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
        plain                | 2026-03-01 treat Amber hot-wax                     | 2026-03-01 treat Amber hot-wax
        a time               | 2026-03-01 19:30 treat Amber hot-wax               | 2026-03-01 19:30 treat Amber hot-wax
        early, and a dot     | 2026-03-01 7.05 treat Amber hot-wax                | 2026-03-01 07:05 treat Amber hot-wax
        an offset            | 2026-03-01 19:30 +02:00 treat Amber hot-wax        | 2026-03-01 19:30 +02:00 treat Amber hot-wax
        offset at the time   | 2026-03-01 19:30+0200 treat Amber hot-wax          | 2026-03-01 19:30 +02:00 treat Amber hot-wax
        as a standard has it | 2026-03-01T19:30Z treat Amber hot-wax              | 2026-03-01 19:30 Z treat Amber hot-wax
        spaces and a note    | `  2026-03-01   treat Amber	hot-wax  # in the shed` | 2026-03-01 treat Amber hot-wax
        only a note          | # 2026-03-01 treat                                 | ``
        quotes               | 2026-03-01 treat "Amber two" 'Kettle Block'        | 2026-03-01 treat "Amber two" "Kettle Block"
        a phone's quotes     | 2026-03-01 treat “Amber two” „Kettle Block“        | 2026-03-01 treat "Amber two" "Kettle Block"
        a phone's dashes     | 2026–03–01 treat Amber hot–wax —cleaning deep      | 2026-03-01 treat Amber hot-wax --cleaning deep
        a phone's dots       | 2026-03-01 tag 2026-02-01…2026-02-03 wet           | 2026-03-01 tag 2026-02-01..2026-02-03 wet
        an apostrophe        | 2026-03-01 remark Amber note Ann's gauge           | `2026-03-01 remark Amber note "Ann's" gauge`
        a hard space         | 2026-03-01 treat Amber hot-wax                     | 2026-03-01 treat Amber hot-wax
        a backslash          | 2026-03-01 treat Amber\\ two hot-wax               | 2026-03-01 treat "Amber two" hot-wax
        pasted               | 2026-03-01 chainage treat Amber hot-wax            | 2026-03-01 treat Amber hot-wax
        other dates          | 2026/3/1 treat Amber hot-wax                       | 2026-03-01 treat Amber hot-wax
        full stops           | 1.3.2026 treat Amber hot-wax                       | 2026-03-01 treat Amber hot-wax
        a month by its name  | 1 March 2026 treat Amber hot-wax                   | 2026-03-01 treat Amber hot-wax
        as phones insert it  | Mar 1, 2026, 7:30 PM treat Amber hot-wax           | 2026-03-01 19:30 treat Amber hot-wax
        midnight in halves   | 2026-03-01 12:05am treat Amber hot-wax             | 2026-03-01 00:05 treat Amber hot-wax
        spaces in a date     | 1. 3. 2026 treat Amber hot-wax                     | 2026-03-01 treat Amber hot-wax
        a colon behind it    | 2026-03-01: treat Amber hot-wax                    | 2026-03-01 treat Amber hot-wax
        an item of a list    | - 2026-03-01 treat Amber hot-wax                   | 2026-03-01 treat Amber hot-wax
        a list of an app     | • 2026-03-01 treat Amber hot-wax                   | 2026-03-01 treat Amber hot-wax
        ticked off           | ☑ 2026-03-01 treat Amber hot-wax                   | 2026-03-01 treat Amber hot-wax
        wide forms           | ２０２６－０３－０１　１９：３０ measure Amber ０．１２％ ＃ note | 2026-03-01 19:30 measure Amber 0.12%
        wide quotes          | 2026-03-01 treat ＂Amber two＂ hot-wax             | 2026-03-01 treat "Amber two" hot-wax
        other figures        | ٢٠٢٦-٠٣-٠١ measure Amber ٠.١٢%                     | 2026-03-01 measure Amber 0.12%
        pasted marks         | LRM2026-03-01LRM treat AmberZWSP hot-wax           | 2026-03-01 treat Amber hot-wax
        only one reading     | 3/25/2026 treat Amber hot-wax                      | 2026-03-25 treat Amber hot-wax
        """)
    void lineMeansWhatWasTyped(String title, String line, String expected) {
        String read = read(line.replace("LRM", "\u200e").replace("ZWSP", "\u200b"));
        assertEquals(expected == null ? "" : expected, read);
        assertEquals(read, read(read), "read again");
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
        two readings     | 5/6/2026 treat Amber hot-wax     | 2026-06-05 or 2026-05-06
        no such day      | 2026-02-30 treat Amber hot-wax   | is no date
        no date          | treat Amber hot-wax              | is no date
        no such time     | 2026-03-01 25:00 treat Amber wax | is no time of day
        no such half     | 2026-03-01 13:00 pm treat Amber  | is no time of day
        no such offset   | 2026-03-01 12:00 +25:00 treat A  | is no offset
        nothing said     | 2026-03-01                       | nothing follows the date
        an open quote    | 2026-03-01 treat "Amber          | is not closed
        """)
    void lineThatCannotBeUnderstoodSaysWhatToWrite(String title, String line, String words) {
        String read = read(line);
        assertTrue(read.startsWith("refused: ") && read.contains(words) && read.contains("; "), read);
    }

    @Test
    void everyWordComesBackAsItWasWritten() throws Refusal {
        Random random = new Random(1);
        String letters = "ab #\"'\\“”‘’—–…=- \u00a0ø鏈\u200e２％＃＂";
        for (int i = 0; i < 5000; i++) {
            StringBuilder word = new StringBuilder();
            int length = random.nextInt(8);
            for (int n = 0; n < length; n++) {
                word.append(letters.charAt(random.nextInt(letters.length())));
            }
            assertEquals(List.of("a", word.toString(), "b"), Words.of("a " + Words.quoted(word.toString()) + " b"));
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"UTF-8", "UTF-16", "UTF-16LE", "UTF-16BE"})
    void everyEncodingWithItsMarkAndEveryLineEndIsRead(String code) throws Refusal {
        String mark = code.equals("UTF-16") ? "" : "\ufeff"; // Java writes that one's itself
        for (String end : List.of("\n", "\r\n", "\r")) {
            byte[] content = (mark + "chainage logbook" + end + end + "2026-03-01 treat Ämber hot-wax" + end)
                    .getBytes(Charset.forName(code));
            assertTrue(LogbookText.promises(content), code);
            LogbookText text = LogbookText.of(content);
            assertEquals(
                    List.of("2026-03-01 treat Ämber hot-wax"),
                    text.lines().stream().map(Line::text).toList());
            assertEquals(3, text.lines().get(0).number());
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"", "chainage", "chainage logbooks\n", "my chainage logbook\n", "#!/bin/sh\nchainage logbook"})
    void whatBeginsOtherwiseIsNone(String text) {
        assertFalse(LogbookText.promises(text.getBytes(StandardCharsets.UTF_8)));
    }

    @Test
    void hostileTextIsRefusedInOneLine() {
        String begin = "chainage logbook\n";
        for (String text : List.of(
                begin + "2026-03-01 treat \u0000",
                begin + "\u001b[2J\u001b]0;owned\u0007",
                begin + "x".repeat(100_000),
                begin + "2026-03-01 treat Amber hot-wax\n".repeat(200_000),
                begin + " ".repeat(LogbookText.LARGEST))) {
            Refusal refusal = assertThrows(Refusal.class, () -> LogbookText.of(text.getBytes(StandardCharsets.UTF_8)));
            assertTrue(refusal.reason().length() < 200 && !refusal.reason().contains("\n"), refusal.reason());
        }
        byte[] latin = (begin + "2026-03-01 treat Ämber hot-wax").getBytes(StandardCharsets.ISO_8859_1);
        assertTrue(Objects.requireNonNull(
                        assertThrows(Refusal.class, () -> LogbookText.of(latin)).reason())
                .contains("UTF-8"));
    }

    @Test
    void wrongLinesAreToldByTheirNumbersAndTheRestGoesIn() throws Refusal {
        LogbookText text =
                LogbookText.of("chainage logbook # mine\n\nyesterday treat Amber\n2026-03-01 treat Amber hot-wax\n");
        assertEquals(List.of(4), text.lines().stream().map(Line::number).toList());
        assertEquals(
                List.of(3),
                text.refused().stream().map(Event.RefusedLine::number).toList());
    }
}
