package chainage.render;

import static org.junit.jupiter.api.Assertions.assertEquals;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CsvTableTest {
    private static List<List<String>> readBack(Json... rows) {
        String text = CsvTable.of(new Json().put("rows", List.of(rows)));
        try (CsvReader<CsvRecord> csv = CsvReader.builder().ofCsvRecord(text)) {
            return csv.stream().map(CsvRecord::getFields).toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
            =HYPERLINK("x") | '=HYPERLINK("x")
            +1              | '+1
            -2+3            | '-2+3
            @SUM(A1)        | '@SUM(A1)
            plain = text    | plain = text
            a,b             | a,b
            say "so"        | say "so"
            """)
    void textThatASpreadsheetWouldRunIsHeld(String title, String cell) {
        assertEquals(List.of(List.of("title"), List.of(cell)), readBack(new Json().put("title", title)));
    }

    @Test
    void controlCharactersInFrontAreHeldToo() {
        assertEquals("'\uFFFD=1", readBack(new Json().put("t", "\t=1")).get(1).get(0));
        assertEquals("a\uFFFDb", readBack(new Json().put("t", "a\rb")).get(1).get(0));
    }

    @Test
    void figuresStayFigures() {
        assertEquals(
                List.of("-2.5", "19650354.3", "7", "true", ""),
                readBack(new Json()
                                .number("a", -2.5, 1)
                                .number("b", 19_650_354.3, 1)
                                .put("c", 7)
                                .put("d", true)
                                .number("e", Double.NaN, 1))
                        .get(1));
    }

    @Test
    void objectsBecomeColumnsAndListsOneCell() {
        Json full = new Json()
                .put("on", new Json().put("low", "a").put("high", "b"))
                .put("why", Arrays.asList("x", "=y"));
        Json bare = new Json().put("on", null).put("why", List.of());
        assertEquals(
                List.of(List.of("on_low", "on_high", "why"), List.of("a", "b", "x; =y"), List.of("", "", "")),
                readBack(full, bare));
    }
}
