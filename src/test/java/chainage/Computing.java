package chainage;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import org.junit.jupiter.api.function.Executable;

/** Bounds that tell work which grows too fast from a busy machine: they count the thread's own time on a processor. */
public final class Computing {
    private Computing() {}

    /** Fails when something keeps this thread computing for longer. */
    public static void atMost(double seconds, Executable task) throws Throwable {
        ThreadMXBean threads = ManagementFactory.getThreadMXBean();
        long from = threads.getCurrentThreadCpuTime();
        task.execute();
        double took = (threads.getCurrentThreadCpuTime() - from) / 1e9;
        assertTrue(took <= seconds, () -> took + " s of computing where " + seconds + " are enough");
    }
}
