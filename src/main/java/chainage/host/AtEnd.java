package chainage.host;

/** What is said or done where the program is ended from outside, as by Ctrl-C; open as long as that holds. */
public final class AtEnd implements AutoCloseable {
    private final Thread end;

    private AtEnd(Thread end) {
        this.end = end;
    }

    /** Does it on a thread of its own while the machine ends; other threads may still be at work. */
    public static AtEnd run(Runnable last) {
        Thread end = new Thread(last, "end");
        Runtime.getRuntime().addShutdownHook(end);
        return new AtEnd(end);
    }

    @Override
    public void close() {
        try {
            Runtime.getRuntime().removeShutdownHook(end);
        } catch (IllegalStateException e) {
            // The machine ends already, and does it.
        }
    }
}
