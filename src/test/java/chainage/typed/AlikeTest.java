package chainage.typed;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class AlikeTest {
    /**
     * The first is Levenshtein's distance as textbooks show it, the second and third each of Damerau's four mistakes; in the
     * last, letters that were turned round would have to be moved again.
     */
    @ParameterizedTest
    @CsvSource({
        "kitten, sitting, 3",
        "amber, ambre, 1",
        "amber, ambr, 1",
        "amber, ambeer, 1",
        "amber, ambur, 1",
        "'', abc, 3",
        "abc, '', 3",
        "ca, abc, 3"
    })
    void stepsAreThoseOfTheTextbook(String from, String to, int steps) {
        assertEquals(steps, Alike.steps(from, to));
        assertEquals(steps, Alike.steps(to, from));
    }

    @ParameterizedTest
    @CsvSource({"impotr, import", "deu, due", "x, ''", "ride, rides", "wax, hot-wax", "zebra, ''", "'', ''"})
    void whatIsMeantIsNamed(String typed, String meant) {
        assertEquals(
                meant.isEmpty() ? List.of() : List.of(meant),
                Alike.to(typed, List.of("import", "due", "rides", "hot-wax")));
    }

    @ParameterizedTest
    @CsvSource({
        "'0,31', 0.31",
        "'12,5', 12.5",
        "'0,125', 0.125",
        "'-1,5', -1.5",
        "+2, 2",
        "1500, 1500",
        "'1234,567', 1234.567"
    })
    void aCommaIsAPointWhereItCanBeNothingElse(String typed, double number) {
        assertEquals(number, TypedNumber.of(typed));
    }

    @ParameterizedTest
    @ValueSource(strings = {"1,500", "12,345"})
    void aCommaThatMayPartThousandsIsAskedBack(String typed) {
        assertThrows(CliError.class, () -> TypedNumber.of(typed));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "1,2,3", "1.5,2", "1d", "NaN", "1e5", "0x10"})
    void whatIsNoNumberIsNone(String typed) {
        assertThrows(NumberFormatException.class, () -> TypedNumber.of(typed));
    }
}
