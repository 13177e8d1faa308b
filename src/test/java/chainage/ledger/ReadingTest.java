package chainage.ledger;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.ledger.Reading.Elongation;
import chainage.ledger.Reading.Gauge;
import chainage.ledger.Reading.Tool;
import chainage.ledger.Reading.Unit;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ReadingTest {
    private static Elongation length(double millimetres, int pitches) {
        return new Elongation(List.of(millimetres), Unit.MILLIMETRES, Tool.RULER, pitches, null, null);
    }

    /** Worked values of the reference, section 2: a ruler's marks over 12 in, and lengths at the limits. */
    @ParameterizedTest(name = "{0} mm over {1} pitches is {2} %")
    @CsvSource(textBlock = """
            306.3875, 24, 0.5208
            307.18125, 24, 0.78125
            307.975,  24, 1.0417
            306.324,  24, 0.5
            307.086,  24, 0.75
            307.848,  24, 1
            12.7635,  1,  0.5
            12.79525, 1,  0.75
            12.827,   1,  1
            13.081,   1,  3
            """)
    void aLengthBecomesAnElongation(double millimetres, int pitches, double percent) {
        assertEquals(percent, length(millimetres, pitches).percent(), 1e-4);
    }

    /**
     * The rule of industrial chain for large sprockets, 200/N %, is two pitches more on N: the same arithmetic by
     * another way. Worked values of the reference, section 2.
     */
    @ParameterizedTest(name = "{0} teeth: {1} %")
    @CsvSource({"67, 2.9851", "80, 2.5", "100, 2.0"})
    void theRuleForLargeSprocketsIsTwoPitchesMore(int teeth, double percent) {
        assertEquals(
                percent, length((teeth + 2) * Reading.PITCH_MILLIMETRES, teeth).percent(), 1e-4);
    }

    /** Worked values of the reference, section 2: 0.2 mm of play adds 0.197 % over 8 pitches, 0.157 % over 10. */
    @ParameterizedTest(name = "over {0} pitches {1} %")
    @CsvSource({"8, 0.197", "10, 0.157"})
    void playIsTakenOff(int pitches, double percent) {
        Elongation with = new Elongation(List.of(0.5), Unit.PERCENT, Tool.CALLIPER, pitches, null, 0.2);
        Elongation without = new Elongation(0.5, Tool.CALLIPER, pitches);
        assertEquals(percent, without.percent() - with.percent(), 5e-4);
        assertTrue(with.errorPercent() > without.errorPercent(), "play is a judgement");
        Gauge edge = new Gauge(0.75, true, null, 0.2, pitches);
        assertEquals(percent, 0.75 - edge.edgePercent(), 5e-4);
    }

    /** Our guesses, as the documents state them. */
    @ParameterizedTest(name = "{0} over {1}: {2} %")
    @CsvSource(textBlock = """
            RULER,    24, 0.10
            RULER,    12, 0.20
            RULER,    96, 0.025
            CALLIPER, 8,  0.05
            CALLIPER, 4,  0.10
            CALLIPER, 24, 0.05
            GAUGE,    8,  0.05
            """)
    void eachToolHasItsError(Tool tool, int pitches, double percent) {
        assertEquals(percent, new Elongation(0.3, tool, pitches).errorPercent(), 1e-12);
    }

    @Test
    void aStatedErrorGoesBeforeTheTools() {
        assertEquals(
                0.03, new Elongation(List.of(0.3), Unit.PERCENT, Tool.RULER, 24, 0.03, null).errorPercent(), 1e-12);
        assertEquals(0.08, new Gauge(0.5, false, 0.08, null, 8).errorPercent(), 1e-12);
        assertEquals(0.05, new Gauge(0.5, false).errorPercent(), 1e-12);
    }

    @Test
    void severalPlacesAreReadByTheirMeanAndAreSurer() {
        Elongation three = new Elongation(List.of(0.30, 0.31, 0.35), Unit.PERCENT, Tool.RULER, 24, null, null);
        assertEquals(0.32, three.percent(), 1e-12);
        assertEquals(3, three.places());
        // Deviations −0.02, −0.01, 0.03: sum of squares 0.0014 over 2.
        assertEquals(Math.sqrt(0.0007), three.spreadPercent(), 1e-12);
        assertEquals(0.10 / Math.sqrt(3), three.errorPercent(), 1e-12);
    }

    @Test
    void placesThatDifferMoreThanTheToolErrsMakeTheReadingLessSure() {
        Elongation uneven = new Elongation(List.of(0.1, 0.3, 1.3), Unit.PERCENT, Tool.RULER, 24, null, null);
        assertEquals(uneven.spreadPercent() / Math.sqrt(3), uneven.errorPercent(), 1e-12);
        assertTrue(uneven.errorPercent() > 0.3);
    }

    @Test
    void noNumberOfPlacesMendsTheTool() {
        Elongation many = new Elongation(Collections.nCopies(100, 0.3), Unit.PERCENT, Tool.RULER, 24, null, null);
        assertEquals(0.05, many.errorPercent(), 1e-12);
    }

    @Test
    void nothingReadIsNoReading() {
        assertThrows(
                IllegalArgumentException.class,
                () -> new Elongation(List.of(), Unit.PERCENT, Tool.RULER, 24, null, null));
        assertThrows(IllegalArgumentException.class, () -> new Elongation(0.3, Tool.RULER, 0));
    }
}
