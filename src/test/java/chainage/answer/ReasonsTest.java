package chainage.answer;

import static org.junit.jupiter.api.Assertions.assertEquals;

import chainage.attribution.Because;
import chainage.render.Formatter;
import chainage.weather.FilmReason;
import java.time.ZoneOffset;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ReasonsTest {
    /** A mile is 1609.344 m (the international yard and pound agreement of 1959). */
    @ParameterizedTest(name = "imperial {0}")
    @CsvSource({"false, 8 km, 25 km/h", "true, 5 mi, 16 mph"})
    void distancesAndSpeedsInReasonsAreInTheRidersUnits(boolean imperial, String distance, String speed) {
        Formatter format = new Formatter(imperial, ZoneOffset.UTC);
        FilmReason film = new FilmReason(0, 4, 0, 0, false, false, false, true, "XYZA", 8047, 0, "");
        assertEquals(
                "0.0 mm of rain within 6 h before, 4.0 mm during; station XYZA, " + distance, Reasons.of(film, format));
        assertEquals(
                "no sport stated; median moving speed " + speed + " is a cyclist's",
                Reasons.of(new Because.Speed(25 / 3.6, true), format));
    }
}
