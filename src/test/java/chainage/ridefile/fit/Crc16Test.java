package chainage.ridefile.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.garmin.fit.CRC;
import java.util.Random;
import org.junit.jupiter.api.Test;

class Crc16Test {
    @Test
    void isTheSdksForEveryLengthAndPlace() {
        byte[] content = new byte[200];
        new Random(5).nextBytes(content);
        for (int from = 0; from < 20; from++) {
            int expected = 0;
            for (int to = from; to < content.length; to++) {
                assertEquals(expected & 0xFFFF, Crc16.of(content, from, to), from + " to " + to);
                expected = CRC.get16(expected, content[to]);
            }
        }
    }
}
