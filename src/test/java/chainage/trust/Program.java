package chainage.trust;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;

/**
 * The built program, started as a rider does, on one ledger.
 *
 * @param file the program
 * @param ledger its ledger
 * @param prefix words before the command line, such as those that drop privileges
 * @param scratch folder for what it prints
 */
record Program(Path file, Path ledger, List<String> prefix, Path scratch) {
    /** Far longer than any command of a trial takes; to hang is a fault too. */
    private static final long LIMIT_MINUTES = 10;

    private static final AtomicInteger RUNS = new AtomicInteger();

    /**
     * How it ended.
     *
     * @param code exit code; 137 when killed
     */
    record Ended(int code, String out, String err) {
        @Override
        public String toString() {
            return "exit " + code + ": " + shorten(err.isBlank() ? out : err);
        }

        private static String shorten(String text) {
            String line = text.strip().replace('\n', ' ');
            return line.length() > 300 ? line.substring(0, 300) + "…" : line;
        }
    }

    /** A process that was started. */
    record Running(Process process, Path out, Path err) {
        Ended end() throws IOException, InterruptedException {
            if (!process.waitFor(LIMIT_MINUTES, TimeUnit.MINUTES)) {
                process.destroyForcibly().waitFor();
                return new Ended(-1, "", "hung: not done after " + LIMIT_MINUTES + " minutes");
            }
            Ended ended = new Ended(process.exitValue(), text(out), text(err));
            Files.delete(out);
            Files.delete(err);
            return ended;
        }

        private static String text(Path file) throws IOException {
            return new String(Files.readAllBytes(file), StandardCharsets.UTF_8);
        }
    }

    Program after(String... words) {
        return new Program(file, ledger, List.of(words), scratch);
    }

    Running start(String... args) throws IOException {
        List<String> command = new ArrayList<>(prefix);
        command.add(file.toString());
        command.addAll(List.of("--ledger", ledger.toString(), "--zone", "UTC"));
        command.addAll(List.of(args));
        int run = RUNS.incrementAndGet();
        Path out = scratch.resolve("out-" + run);
        Path err = scratch.resolve("err-" + run);
        ProcessBuilder builder = new ProcessBuilder(command);
        builder.environment().put("JAVA_HOME", System.getProperty("java.home"));
        builder.redirectInput(new java.io.File("/dev/null"));
        Process process =
                builder.redirectOutput(out.toFile()).redirectError(err.toFile()).start();
        return new Running(process, out, err);
    }

    Ended run(String... args) throws IOException, InterruptedException {
        return start(args).end();
    }

    /** Runs what must succeed before a trial can begin. */
    String must(String... args) throws IOException, InterruptedException {
        Ended ended = run(args);
        if (ended.code() != 0) {
            throw new IOException(String.join(" ", args) + ": " + ended);
        }
        return ended.out();
    }
}
