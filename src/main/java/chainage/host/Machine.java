package chainage.host;

import java.io.File;
import java.io.IOException;
import java.io.InterruptedIOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/**
 * The machine as this user has it.
 *
 * @param environment of the process
 */
public record Machine(Map<String, String> environment) {
    /** How long another program may take; our guess. */
    private static final Duration PATIENCE = Duration.ofMinutes(5);

    /** What a program answered. */
    record Said(int code, String out, String err) {}

    public Path home() {
        return Path.of(environment.getOrDefault("HOME", System.getProperty("user.home", ".")));
    }

    /** A folder of the base directory standard: by its variable, else under home. */
    public Path folder(String variable, String usual) {
        String told = environment.getOrDefault(variable, "");
        return told.isEmpty() ? home().resolve(usual) : Path.of(told);
    }

    /** A program on the path; null when it is not there. */
    @Nullable
    Path find(String program) {
        for (String folder : environment.getOrDefault("PATH", "").split(File.pathSeparator, -1)) {
            // An empty place in the path is the folder where one happens to be, whose files are not to be run unasked.
            Path path = Path.of(folder, program);
            if (!folder.isEmpty() && Files.isExecutable(path)) {
                return path;
            }
        }
        return null;
    }

    boolean succeeds(String... command) {
        try {
            return find(command[0]) != null && ask("", command).code() == 0;
        } catch (IOException e) {
            return false;
        }
    }

    void run(String input, String... command) throws IOException {
        Said said = ask(input, command);
        if (said.code() != 0) {
            throw new IOException(String.join(" ", command) + " failed (exit " + said.code() + ")"
                    + (said.err().isBlank() ? "" : ": " + said.err().strip()));
        }
    }

    Said ask(String input, String... command) throws IOException {
        Path program = find(command[0]);
        if (program == null) {
            throw new IOException(command[0] + " is not on your path");
        }
        List<String> words = new ArrayList<>(List.of(command));
        words.set(0, program.toString());
        // Its answers go to files, so that no pipe can fill up and block, and so that it may be given up.
        Path out = Files.createTempFile("chainage-", ".out");
        Path err = Files.createTempFile("chainage-", ".err");
        try {
            ProcessBuilder builder =
                    new ProcessBuilder(words).redirectOutput(out.toFile()).redirectError(err.toFile());
            builder.environment().putAll(environment);
            Process process = builder.start();
            try (var in = process.getOutputStream()) {
                in.write(input.getBytes(StandardCharsets.UTF_8));
            } catch (IOException e) {
                // It need not read what it is given.
            }
            if (!process.waitFor(PATIENCE.toSeconds(), TimeUnit.SECONDS)) {
                process.destroyForcibly();
                throw new IOException(command[0] + " did not end within " + PATIENCE.toMinutes() + " minutes");
            }
            return new Said(process.exitValue(), text(out), text(err));
        } catch (InterruptedException e) {
            throw new InterruptedIOException(command[0] + " was interrupted");
        } finally {
            Files.deleteIfExists(out);
            Files.deleteIfExists(err);
        }
    }

    /** As far as it can be read: others need not write UTF-8. */
    private static String text(Path file) throws IOException {
        return new String(Files.readAllBytes(file), StandardCharsets.UTF_8);
    }

    /** Deletes a folder that is empty; any other stays. */
    public static void deleteEmpty(Path folder) {
        try {
            Files.deleteIfExists(folder);
        } catch (DirectoryNotEmptyException | NoSuchFileException e) {
            // Somebody else's things lie in it, or it is gone already.
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
