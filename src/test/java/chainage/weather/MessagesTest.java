package chainage.weather;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Locale;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Isolated;

/** What is wrong with a record reads the same wherever the program runs. */
@Isolated
class MessagesTest {
    private final Locale before = Locale.getDefault();

    @AfterEach
    void back() {
        Locale.setDefault(before);
    }

    @Test
    void figuresHaveTheSameDigitsInEveryCountry() {
        // The digits usual in Egypt are those of the Arabic script (Unicode CLDR, ar-EG: arab).
        Locale.setDefault(Locale.forLanguageTag("ar-EG"));
        assertEquals("\u0664", String.format("%d", 4));
        WeatherException e =
                assertThrows(WeatherException.class, () -> new ReportTime(null).of("XYZA", 4, 6, 50, null));
        assertEquals("day 04 at 06:50 of no stated month", e.what());
    }
}
