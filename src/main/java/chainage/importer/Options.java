package chainage.importer;

import java.time.Duration;
import java.time.Instant;
import java.util.function.Predicate;
import java.util.function.Supplier;

/**
 * How to import.
 *
 * @param jobs threads that decode; 1 or more. The result does not depend on it.
 * @param latest no ride can start after this
 * @param progress told after each file
 * @param clock the present, to tell whether a file is still being written
 * @param pause waits for a file that may still be being written, at most once an import and two seconds
 * @param ignored absolute paths of files and folders that are passed over, though not where they are named themselves
 */
public record Options(
        int jobs, Instant latest, Progress progress, Supplier<Instant> clock, Pause pause, Predicate<String> ignored) {
    public Options {
        if (jobs < 1) {
            throw new IllegalArgumentException("jobs " + jobs);
        }
    }

    /** Where nothing is ignored. */
    public Options(int jobs, Instant latest, Progress progress, Supplier<Instant> clock, Pause pause) {
        this(jobs, latest, progress, clock, pause, path -> false);
    }

    /** As many jobs as there are cores, no progress, real waiting. */
    public static Options of(Instant latest, Supplier<Instant> clock) {
        return new Options(
                Runtime.getRuntime().availableProcessors(),
                latest,
                (done, total, file) -> {},
                clock,
                time -> Thread.sleep(time.toMillis()));
    }

    public Options withJobs(int n) {
        return new Options(n, latest, progress, clock, pause, ignored);
    }

    public Options withProgress(Progress told) {
        return new Options(jobs, latest, told, clock, pause, ignored);
    }

    public Options ignoring(Predicate<String> paths) {
        return new Options(jobs, latest, progress, clock, pause, paths);
    }

    /** Told how far an import is, by the importing thread. */
    @FunctionalInterface
    public interface Progress {
        /**
         * Called when a file or an archive's entry is done.
         *
         * @param done files done, archives counting as one
         * @param total files found
         * @param file name of the one just done; from outside, so neutralise before showing
         */
        void at(int done, int total, String file);
    }

    /** Lets time pass. */
    @FunctionalInterface
    public interface Pause {
        void pause(Duration time) throws InterruptedException;
    }
}
