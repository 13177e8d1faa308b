package chainage.store.row;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.ride.PowerTrace;
import chainage.ride.PowerTrace.Minute;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

public class PackedPowerTest {
    static LongStream seeds() {
        return LongStream.range(0, 200);
    }

    /** Any trace there can be, among them jumps from nothing to the most and back. */
    public static PowerTrace random(Random random) {
        List<Minute> minutes = new ArrayList<>();
        int count = random.nextInt(200);
        for (int i = 0; i < count; i++) {
            int seconds = random.nextBoolean() ? 60 : random.nextInt(61);
            int turning = random.nextBoolean() ? seconds : random.nextInt(seconds + 1);
            boolean steady = turning >= Minute.STEADY_SECONDS;
            int watts = random.nextInt(4) == 0 ? random.nextInt(3001) : random.nextInt(300);
            minutes.add(
                    seconds == 0
                            ? Minute.EMPTY
                            : new Minute(seconds, turning, watts, steady ? random.nextInt(251) : 0));
        }
        return new PowerTrace(random.nextInt(60_000_000), minutes);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void whatIsPackedComesBack(long seed) {
        PowerTrace trace = random(new Random(seed));
        assertEquals(trace, PackedPower.unpack(PackedPower.pack(trace)));
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void whatIsCutOrTurnedIsATraceOrRefused(long seed) {
        Random random = new Random(seed);
        byte[] packed = PackedPower.pack(random(random));
        byte[] cut = Arrays.copyOf(packed, random.nextInt(packed.length));
        assertThrows(IllegalArgumentException.class, () -> PackedPower.unpack(cut));
        packed[random.nextInt(packed.length)] ^= (byte) (1 << random.nextInt(8));
        try {
            assertTrue(PackedPower.unpack(packed).minutes().size() <= PowerTrace.MOST);
        } catch (IllegalArgumentException e) {
            assertTrue(e.getMessage() != null);
        }
    }

    /** Two hours outdoors: every other minute the rider rolls for a while, and power wanders by 60 W a minute. */
    @Test
    void twoHoursTakeNoMoreThanThreeHundredBytes() {
        Random random = new Random(1);
        List<Minute> minutes = new ArrayList<>();
        for (int i = 0; i < 120; i++) {
            boolean steady = random.nextBoolean();
            int watts = (int) Math.max(0, 180 + 45 * random.nextGaussian());
            minutes.add(new Minute(
                    60,
                    steady ? 60 : 20 + random.nextInt(36),
                    watts,
                    steady ? (int) (86 + 6 * random.nextGaussian()) : 0));
        }
        int bytes = PackedPower.pack(new PowerTrace(29_000_000, minutes)).length;
        assertTrue(bytes <= 300, bytes + " bytes");
    }
}
