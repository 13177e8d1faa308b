package chainage.trust;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.Stream;

/**
 * Where trials are made, and how much of them.
 *
 * @param program the built program
 * @param work a folder of this run alone, removed at the end
 * @param build the folder of all that is built, for reports
 * @param isLong true for the long form
 * @param seed of all that is left to chance
 */
record Site(Path program, Path work, Path build, boolean isLong, long seed) {
    /** One number for the short form, another one for the long. */
    int times(int inShort, int inLong) {
        return isLong ? inLong : inShort;
    }

    Random random(String trial) {
        return new Random(seed * 31 + trial.hashCode());
    }

    /** An empty folder. */
    Path folder(String name) throws IOException {
        Path folder = work.resolve(name);
        if (Files.exists(folder, LinkOption.NOFOLLOW_LINKS)) {
            delete(folder);
        }
        return Files.createDirectories(folder);
    }

    /** The program on a ledger. */
    Program on(Path ledger) {
        return new Program(program, ledger, List.of(), work);
    }

    boolean isRoot() {
        return "root".equals(System.getProperty("user.name"));
    }

    static void say(String format, Object... values) {
        System.err.printf(Locale.ROOT, format + "%n", values);
    }

    static void delete(Path folder) throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.deleteIfExists(path);
            }
        }
    }

    static void copy(Path from, Path to) throws IOException {
        try (Stream<Path> all = Files.walk(from)) {
            all.forEach(path -> {
                try {
                    Files.copy(path, to.resolve(from.relativize(path).toString()));
                } catch (java.nio.file.FileAlreadyExistsException e) {
                    // The folder itself.
                } catch (IOException e) {
                    throw new UncheckedIOException(e);
                }
            });
        }
    }
}
