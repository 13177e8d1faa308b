package chainage.host;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import java.util.jar.Manifest;
import java.util.stream.Collectors;

/** The program that runs: what the build wrote into its manifest, and which file it is. */
public final class Program {
    /** A program that is no single file may be another at the next start. */
    private static final String THIS_RUN = Long.toHexString(new Random().nextLong());

    private Program() {}

    /** Its name and version, such as {@code chainage 1.2.0}. */
    public static String version() {
        String v = Program.class.getPackage().getImplementationVersion();
        return "chainage " + (v == null ? "development build" : v);
    }

    /** The day of the release as {@code 2026-11-27}; empty for a development build. */
    public static String day() {
        try (InputStream in = Program.class.getResourceAsStream("/META-INF/MANIFEST.MF")) {
            String day =
                    in == null ? null : new Manifest(in).getMainAttributes().getValue("Release-Date");
            return day == null ? "" : day;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** What tells it from any other program that may have kept something: version, size and time of its file. */
    public static String identity() {
        try {
            Path file = Path.of(System.getProperty("java.class.path", ""));
            if (Files.isRegularFile(file)) {
                return version() + " " + Files.size(file) + " " + Files.getLastModifiedTime(file);
            }
        } catch (IOException | InvalidPathException e) {
            // Several files.
        }
        return version() + " " + THIS_RUN;
    }

    /** The file that was started: the one with the program in it, or what the class path is. */
    public static Path file() {
        return Path.of(System.getProperty("chainage.program", System.getProperty("java.class.path", "")));
    }

    /** Its name as it can be typed from any folder. */
    public static String typed() {
        String started = System.getProperty("chainage.program", "chainage");
        return started.contains("/")
                ? Path.of(started).toAbsolutePath().normalize().toString()
                : started;
    }

    /** How this program was started, so that the scheduler can do the same. */
    public static List<String> command() {
        String started = System.getProperty("chainage.program", "");
        if (!started.isEmpty()) {
            return List.of(absolute(Path.of(started)));
        }
        Path java = Path.of(System.getProperty("java.home", ""), "bin", "java");
        String classes = Arrays.stream(System.getProperty("java.class.path", "").split(File.pathSeparator, -1))
                .map(p -> absolute(Path.of(p)))
                .collect(Collectors.joining(File.pathSeparator));
        return List.of(java.toString(), "-cp", classes, "chainage.cli.Main");
    }

    /** As the system understands it: behind a link, ".." is another folder than by the letter. */
    public static String absolute(Path path) {
        Path absolute = path.toAbsolutePath();
        for (Path name : absolute) {
            if (name.toString().equals("..")) {
                return real(absolute).toString();
            }
        }
        return absolute.normalize().toString();
    }

    /** Without links as far as it is there; a file that is yet to be made lies in a folder that is. */
    private static Path real(Path path) {
        try {
            return path.toRealPath();
        } catch (IOException e) {
            Path parent = path.getParent();
            return parent == null ? path : real(parent).resolve(Objects.requireNonNull(path.getFileName()));
        }
    }
}
