package chainage.trust;

import chainage.Computing;
import java.io.IOException;
import java.util.Locale;

/** Where the fuzzer comes in; which input it makes is said by the property {@code trust.input}. */
public final class HostileTarget {
    private static final Hostile INPUT =
            Hostile.valueOf(System.getProperty("trust.input", "fit").toUpperCase(Locale.ROOT));

    /** Of the processor's time, so that a busy machine makes no hang. */
    private static final double HANG_SECONDS = 2;

    private HostileTarget() {}

    /** Called once by the fuzzer: loads all classes, which takes longer than any input may. */
    public static void fuzzerInitialize() throws IOException {
        INPUT.load();
    }

    /** Called by the fuzzer with bytes of its making. */
    public static void fuzzerTestOneInput(byte[] content) throws Throwable {
        Computing.atMost(HANG_SECONDS, () -> INPUT.read(content));
    }
}
