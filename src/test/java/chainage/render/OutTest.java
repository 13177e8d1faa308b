package chainage.render;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class OutTest {
    private static List<String> lines(String text) {
        StringWriter to = new StringWriter();
        new Out(new PrintWriter(to), 20, false).line(text);
        return to.toString().lines().toList();
    }

    /** That no line begins with a unit is a rule of typesetters: common practice, without a source. */
    @ParameterizedTest
    @CsvSource({
        "it counts up to 1234 km now, it counts up to|1234 km now",
        "it was worn to 0.17 %. Yes, it was worn to|0.17 %. Yes",
        "it is worn by most wax now, it is worn by most|wax now",
        "in between 12 and 78 m of it, in between 12 and|78 m of it",
    })
    void aFigureStaysWithItsUnit(String text, String lines) {
        assertEquals(List.of(lines.split("\\|")), lines(text));
    }

    @Test
    void aCommandAtTheEndStaysOneLine() {
        assertEquals(
                List.of("to take it back:", "chainage undo 12345 --dry-run"),
                lines("to take it back: chainage undo 12345 --dry-run"));
    }
}
