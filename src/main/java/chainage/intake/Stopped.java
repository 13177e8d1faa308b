package chainage.intake;

import chainage.command.CommandContext;
import chainage.command.Errors;
import chainage.host.AtEnd;
import chainage.render.Formatter;
import java.util.concurrent.atomic.AtomicLong;

/**
 * What an import says where it is stopped from outside, as by Ctrl-C, before the system ends it: what is kept of it. Open as
 * long as it runs.
 */
final class Stopped implements AutoCloseable {
    private final CommandContext context;
    private final AtomicLong kept = new AtomicLong();
    private final AtEnd end;

    public Stopped(CommandContext context) {
        this.context = context;
        this.end = AtEnd.run(this::say);
    }

    /** Notes that so many files more are kept for good. */
    public void kept(int files) {
        kept.addAndGet(files);
    }

    /** Says it; called by the machine that ends, while the import's own thread may still be at work. */
    void say() {
        long files = kept.get();
        Errors.say(
                context.terminal(),
                "stopped; " + (files == 0 ? "nothing was" : Formatter.count(files, "file is", "files are"))
                        + " kept of it, and nothing is damaged; type the same again to go on");
        context.terminal().err().flush();
    }

    @Override
    public void close() {
        end.close();
    }
}
