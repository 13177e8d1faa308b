package chainage.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * Starts a process, waits for it, and takes the time; any exit code but 0 ends the benchmark with what it printed.
 *
 * @param command to run
 * @param scratch folder for its output
 */
record ColdRun(List<String> command, Path scratch) {
    private static final long LIMIT_MINUTES = 30;

    /**
     * How it went.
     *
     * @param seconds wall time from start to exit
     * @param output what it printed on standard output
     */
    record Result(double seconds, String output) {}

    ColdRun {
        command = List.copyOf(command);
    }

    /** A baseline of this package in a virtual machine of its own, with the flags that the program starts with. */
    static ColdRun baseline(Class<?> main, Path testClasses, Path scratch, String... args) {
        List<String> arguments = new ArrayList<>(List.of(
                "-XX:+UseSerialGC", // as in src/main/sh/start.sh
                "-Xshare:auto",
                "-cp",
                testClasses.toString(),
                main.getName()));
        arguments.addAll(List.of(args));
        return java(scratch, arguments.toArray(String[]::new));
    }

    /** A virtual machine with these arguments. */
    static ColdRun java(Path scratch, String... arguments) {
        List<String> command = new ArrayList<>(
                List.of(Path.of(System.getProperty("java.home"), "bin", "java").toString()));
        command.addAll(List.of(arguments));
        return new ColdRun(command, scratch);
    }

    /** The folder of caches of all processes started here. */
    static Path cache(Path scratch) {
        return scratch.resolve("cache");
    }

    Result run() throws IOException, InterruptedException {
        Path out = scratch.resolve("stdout");
        Path err = scratch.resolve("stderr");
        ProcessBuilder builder = new ProcessBuilder(command);
        builder.environment().put("JAVA_HOME", System.getProperty("java.home"));
        builder.environment().put("XDG_CACHE_HOME", cache(scratch).toString());
        builder.redirectOutput(out.toFile()).redirectError(err.toFile());
        long from = System.nanoTime();
        Process process = builder.start();
        process.getOutputStream().close();
        boolean ended = process.waitFor(LIMIT_MINUTES, TimeUnit.MINUTES);
        double seconds = (System.nanoTime() - from) / 1e9;
        if (!ended) {
            process.destroyForcibly();
            throw new IOException(command + ": not done after " + LIMIT_MINUTES + " minutes");
        }
        if (process.exitValue() != 0) {
            throw new IOException(command + ": exit code " + process.exitValue() + "\n" + tail(out) + tail(err));
        }
        return new Result(seconds, Files.readString(out));
    }

    private static String tail(Path file) throws IOException {
        String text = Files.readString(file);
        return text.substring(Math.max(0, text.length() - 2_000));
    }
}
