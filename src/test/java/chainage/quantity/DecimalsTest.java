package chainage.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class DecimalsTest {
    /** The JDK's parser gives the nearest double; bit by bit, so that −0 is told from 0. */
    @Test
    void isTheNearestDoubleAsTheJdkHasIt() {
        Random random = new Random(23);
        for (int i = 0; i < 300_000; i++) {
            int digits = 1 + random.nextInt(15);
            StringBuilder text = new StringBuilder();
            for (int d = 0; d < digits; d++) {
                text.append((char) ('0' + random.nextInt(10)));
            }
            if (random.nextInt(5) > 0) {
                text.insert(random.nextInt(digits + 1), '.');
            }
            if (random.nextBoolean()) {
                text.insert(0, '-');
            }
            assertEquals(Double.parseDouble(text.toString()), Decimals.of(text.toString()), text.toString());
            char[] within = ("1." + text + ".1").toCharArray();
            assertEquals(Decimals.of(text.toString()), Decimals.of(within, 2, within.length - 2), text.toString());
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "-", ".", "-.", "+1", "1e3", "1,5", "1.2.3", "--1", "NaN", "0x1", "1234567890123456"})
    void isLeftToTheOtherWay(String text) {
        assertTrue(Double.isNaN(Decimals.of(text)));
    }
}
