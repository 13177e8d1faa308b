package chainage.trust;

import static org.junit.jupiter.api.Assertions.assertFalse;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Every seed of every input, whole, cut at every length, and with every single bit flipped: facts or a refusal, nothing
 * else. What a fuzzer found lies among the seeds, so it stays found.
 */
@Timeout(value = 20, unit = TimeUnit.MINUTES)
class HostileInputTest {
    @ParameterizedTest
    @EnumSource
    void everyCutLengthIsReadOrRefused(Hostile input) throws IOException {
        each(input, seed -> {
            for (int length = 0; length <= seed.length; length++) {
                read(input, Arrays.copyOf(seed, length), "cut at " + length);
            }
        });
    }

    @ParameterizedTest
    @EnumSource
    void everyFlippedBitIsReadOrRefused(Hostile input) throws IOException {
        each(input, seed -> {
            for (int at = 0; at < seed.length; at++) {
                for (int bit = 0; bit < 8; bit++) {
                    byte[] bent = seed.clone();
                    bent[at] ^= (byte) (1 << bit);
                    read(input, bent, "bit " + bit + " of byte " + at);
                }
            }
        });
    }

    private static void each(Hostile input, Consumer<byte[]> trial) throws IOException {
        List<byte[]> seeds = input.seeds();
        assertFalse(seeds.isEmpty(), input + " has no seeds");
        seeds.forEach(trial);
    }

    private static void read(Hostile input, byte[] content, String what) {
        try {
            input.read(content);
        } catch (RuntimeException | Error e) {
            throw new AssertionError(input + ", " + content.length + " bytes, " + what, e);
        }
    }
}
