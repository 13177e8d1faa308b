package chainage.trust;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.Locale;

/** Where the fuzzer comes in; which input it makes is said by the property {@code trust.input}. */
public final class HostileTarget {
    private static final Hostile INPUT =
            Hostile.valueOf(System.getProperty("trust.input", "fit").toUpperCase(Locale.ROOT));

    /** Of the processor's time, so that a busy machine makes no hang. */
    private static final long HANG_NANOS = 2_000_000_000L;

    private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

    private HostileTarget() {}

    /** Called once by the fuzzer: loads all classes, which takes longer than any input may. */
    public static void fuzzerInitialize() throws IOException {
        INPUT.load();
    }

    /** Called by the fuzzer with bytes of its making. */
    public static void fuzzerTestOneInput(byte[] content) {
        long from = THREADS.getCurrentThreadCpuTime();
        INPUT.read(content);
        if (THREADS.getCurrentThreadCpuTime() - from > HANG_NANOS) {
            throw new AssertionError("took more than two seconds");
        }
    }
}
