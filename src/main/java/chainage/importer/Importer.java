package chainage.importer;

import java.io.IOException;
import java.io.InterruptedIOException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/**
 * Imports files and folders: one thread reads and unpacks, some decode, and the calling thread passes the verdicts to
 * the sink in input order, so that the result depends neither on speed nor on the number of threads.
 */
public final class Importer {
    private final Decode decode;
    private final KnownFiles memory;
    private final Sink sink;
    private final Options options;
    private final UnpackLimits limits;

    public Importer(Decode decode, KnownFiles memory, Sink sink, Options options) {
        this(decode, memory, sink, options, UnpackLimits.USUAL);
    }

    Importer(Decode decode, KnownFiles memory, Sink sink, Options options, UnpackLimits limits) {
        this.decode = decode;
        this.memory = memory;
        this.sink = sink;
        this.options = options;
        this.limits = limits;
    }

    /**
     * Imports all files at and below some paths.
     *
     * @return an outcome a file and an archive's entry, in order of absolute paths and then of the archive, without
     *     rides; the archive itself comes after its entries
     * @throws NoSuchFileException when one of the paths does not exist; nothing is imported then
     * @throws InterruptedIOException when the thread is interrupted; what was written stays
     * @throws IOException when the sink fails; what was written before stays
     */
    public List<Outcome> run(List<Path> paths) throws IOException {
        return runAll(Walk.below(paths, options.ignored()));
    }

    /**
     * Imports files that were handed over; what is remembered of them is by their names, which are no absolute paths.
     *
     * @return an outcome a file and an archive's entry, in their order, as for those on the disk
     * @throws InterruptedIOException when the thread is interrupted; what was written stays
     * @throws IOException when the sink fails; what was written before stays
     */
    public List<Outcome> runHanded(List<Handed> files) throws IOException {
        return runAll(Handed.found(files, options.clock().get()));
    }

    private List<Outcome> runAll(List<Walk.Found> files) throws IOException {
        Recorder recorder = new Recorder(memory, sink, options, limits);
        Classifier classifier =
                new Classifier(decode, options.latest(), d -> memory.known(d).or(() -> recorder.written(d)));
        ExecutorService threads = Executors.newFixedThreadPool(options.jobs() + 1, task -> {
            Thread thread = new Thread(task, "import");
            thread.setDaemon(true);
            return thread;
        });
        try {
            Reading reading = new Reading(files, classifier, threads);
            Future<?> reader = threads.submit(reading);
            file(files, recorder, reading.line);
            result(reader);
            return recorder.finish();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            InterruptedIOException stopped = new InterruptedIOException("the import was interrupted");
            stopped.initCause(e);
            throw stopped;
        } finally {
            end(threads);
        }
    }

    /**
     * A place in the line to the sink.
     *
     * @param file by number; that of all files marks the end of the line
     * @param draft what becomes of it
     * @param unchanged true when it is remembered already
     */
    private record Slot(int file, Future<Classifier.Draft> draft, boolean unchanged) {}

    private void file(List<Walk.Found> files, Recorder recorder, BlockingQueue<Slot> line)
            throws IOException, InterruptedException {
        for (Slot slot = line.take(); slot.file() < files.size(); slot = line.take()) {
            Classifier.Draft draft = result(slot.draft());
            if (slot.unchanged()) {
                recorder.unchanged(draft.outcome());
            } else {
                recorder.take(files.get(slot.file()), draft);
            }
            options.progress().at(slot.file() + 1, files.size(), draft.outcome().file());
        }
    }

    private static <T extends @Nullable Object> T result(Future<T> future) throws InterruptedException {
        try {
            return future.get();
        } catch (ExecutionException e) {
            if (e.getCause() instanceof Error error) {
                throw error;
            }
            throw new IllegalStateException(e.getCause());
        }
    }

    /** Stops all threads and waits for them, so that nothing reads on behind the caller's back. */
    private static void end(ExecutorService threads) {
        threads.shutdownNow();
        boolean interrupted = false;
        while (true) {
            try {
                if (threads.awaitTermination(1, TimeUnit.MINUTES)) {
                    break;
                }
            } catch (InterruptedException e) {
                interrupted = true;
            }
        }
        if (interrupted) {
            Thread.currentThread().interrupt();
        }
    }

    /** The one reading thread's work: from files to slots in the line. */
    private final class Reading implements Runnable, Unpacker.Out {
        private final List<Walk.Found> files;
        private final Classifier classifier;
        private final ExecutorService threads;
        private final BlockingQueue<Slot> line = new ArrayBlockingQueue<>(limits.flightFiles());
        private final Semaphore flight = new Semaphore(limits.flightBytes());
        private int file;

        Reading(List<Walk.Found> files, Classifier classifier, ExecutorService threads) {
            this.files = files;
            this.classifier = classifier;
            this.threads = threads;
        }

        @Override
        public void run() {
            try {
                try {
                    for (file = 0; file < files.size(); file++) {
                        read(files.get(file));
                    }
                } catch (RuntimeException | Error e) {
                    // The importing thread finds the failure when it comes to the end of the line.
                    endLine();
                    throw e;
                }
                endLine();
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        }

        private void endLine() throws InterruptedException {
            line.put(new Slot(files.size(), CompletableFuture.completedFuture(null), false));
        }

        private void read(Walk.Found found) throws InterruptedException {
            if (found.verdict() != null) {
                verdict(found.verdict(), false);
                return;
            }
            Optional<KnownFiles.Known> known = memory.unchanged(found.place().stamp());
            if (known.isPresent()) {
                line.put(new Slot(file, CompletableFuture.completedFuture(unchanged(found, known.get())), true));
            } else {
                Unpacker.unpack(found.place(), found.opening(), limits, this);
            }
        }

        private static Classifier.Draft unchanged(Walk.Found found, KnownFiles.Known known) {
            String before = switch (known.kind()) {
                case REFUSED -> "unchanged since it was refused: " + known.reason();
                case NOT_RIDE -> "unchanged, no ride: " + known.reason();
                case IMPORTED, SALVAGED, KNOWN, ARCHIVE, LOGBOOK -> "unchanged";
            };
            Outcome outcome = Outcome.of(found.place(), Outcome.Kind.KNOWN, before, known.hint());
            return new Classifier.Draft(known.digest() == null ? outcome : outcome.withDigest(known.digest()), false);
        }

        @Override
        public void verdict(Outcome outcome, boolean torn) throws InterruptedException {
            line.put(new Slot(file, CompletableFuture.completedFuture(new Classifier.Draft(outcome, torn)), false));
        }

        @Override
        public void content(FoundAt place, byte[] content) throws InterruptedException {
            int permits = Math.min(content.length, limits.flightBytes());
            flight.acquire(permits);
            line.put(new Slot(
                    file,
                    threads.submit(() -> {
                        try {
                            return classifier.classify(place, content);
                        } finally {
                            flight.release(permits);
                        }
                    }),
                    false));
        }
    }
}
