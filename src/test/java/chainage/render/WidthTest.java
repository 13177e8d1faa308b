package chainage.render;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WidthTest {
    /** Wide (W and F) and narrow (N, Na, H) letters as EastAsianWidth.txt of Unicode Standard Annex 11 has them. */
    @ParameterizedTest
    @CsvSource({"Amber, 5", "Größe, 5", "自転車, 6", "한글, 4", "ﾊﾝｶｸ, 4", "ＡＢ, 4", "e\u0301, 1", "🚲, 2", "°–…, 3", "'', 0"
    })
    void columnsAreThoseOfTheStandard(String text, int columns) {
        assertEquals(columns, Width.of(text));
    }

    @Test
    void nothingIsCutInTheMiddleOfALetter() {
        assertEquals("自", Width.cut("自転車", 3));
        assertEquals("自 ", Width.fitted("自転車", 3));
        assertEquals("ab  ", Width.fitted("ab", 4));
    }

    @Test
    void wideNamesStandInStraightColumns() {
        StringWriter text = new StringWriter();
        new Out(new PrintWriter(text), 30, false)
                .table(new TextTable()
                        .left("CHAIN")
                        .right("LEFT")
                        .row("自転車のチェーン長い名前です", "12 km")
                        .row("Amber", "7 km"));
        text.toString().lines().forEach(line -> assertEquals(30, Width.of(line), line));
        assertTrue(text.toString().contains("…"));
    }
}
