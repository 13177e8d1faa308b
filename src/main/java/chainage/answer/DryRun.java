package chainage.answer;

import chainage.render.Out;

/** What stands before an answer of which nothing was written. */
public final class DryRun {
    private DryRun() {}

    /** Says so, and that the words that follow are those of the real run. */
    public static void head(boolean dryRun, Out out) {
        if (dryRun) {
            out.line("Dry run, nothing is written. It would say:");
        }
    }
}
