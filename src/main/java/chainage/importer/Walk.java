package chainage.importer;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/**
 * Finds the files below some paths, with size and time of change, in order of their absolute paths and each once.
 * Hidden files and folders (leading dot) are passed over unless named. A link that is named is followed, and so is a
 * link to a file; a link to a folder met on the way is not, so that there are no loops.
 */
final class Walk extends SimpleFileVisitor<Path> {
    private final Map<String, Found> found;
    private final Path given;
    private final Path absolute;
    private final Path start;
    private final Predicate<String> ignored;

    /**
     * A file, or a place that cannot be read.
     *
     * @param place name and stamp
     * @param opening to read it by
     * @param path where it is on the disk; null where it is not there
     * @param verdict what becomes of it without reading; null for a file to read
     */
    record Found(
            FoundAt place,
            Opening opening,
            @Nullable Path path,
            @Nullable Outcome verdict) {
        private static Found at(Path path, FoundAt place, @Nullable Outcome verdict) {
            return new Found(place, () -> Files.newInputStream(path), path, verdict);
        }
    }

    private Walk(Path given, Path absolute, Path start, Predicate<String> ignored, Map<String, Found> found) {
        this.found = found;
        this.given = given;
        this.absolute = absolute;
        this.start = start;
        this.ignored = ignored;
    }

    /**
     * Finds all files.
     *
     * @param ignored absolute paths that are passed over where they are not named
     * @throws NoSuchFileException when one of the paths does not exist
     */
    static List<Found> below(List<Path> paths, Predicate<String> ignored) throws IOException {
        for (Path path : paths) {
            try {
                Files.readAttributes(path, BasicFileAttributes.class);
            } catch (NoSuchFileException e) {
                throw e;
            } catch (IOException e) {
                // It is there but cannot be read: an outcome like any other.
            }
        }
        TreeMap<String, Found> all = new TreeMap<>();
        for (Path path : paths) {
            Path absolute = path.toAbsolutePath();
            // A step up after a link leads elsewhere than the text says, so only the file system can resolve it.
            absolute = absolute.equals(absolute.normalize()) ? absolute : absolute.toRealPath();
            Walk walk = new Walk(path, absolute, Files.isDirectory(path) ? path.toRealPath() : absolute, ignored, all);
            Files.walkFileTree(walk.start, walk);
        }
        return List.copyOf(all.values());
    }

    @Override
    public FileVisitResult preVisitDirectory(Path folder, BasicFileAttributes attributes) {
        return isHidden(folder) || isIgnored(folder, attributes)
                ? FileVisitResult.SKIP_SUBTREE
                : FileVisitResult.CONTINUE;
    }

    @Override
    public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) {
        if (isHidden(file) || isIgnored(file, attributes)) {
            return FileVisitResult.CONTINUE;
        }
        BasicFileAttributes target = attributes;
        if (attributes.isSymbolicLink()) {
            try {
                target = Files.readAttributes(file, BasicFileAttributes.class);
            } catch (IOException e) {
                add(file, 0, 0, Outcome.Kind.REFUSED, "the link leads nowhere", "mend or remove the link");
                return FileVisitResult.CONTINUE;
            }
        }
        long modified = target.lastModifiedTime().toMillis();
        if (target.isRegularFile()) {
            FoundAt place = place(file, target.size(), modified);
            add(Found.at(file, place, null));
        } else if (target.isDirectory()) {
            add(file, 0, modified, Outcome.Kind.NOT_RIDE, "a link to a folder, not followed", "name it to import it");
        } else {
            add(file, 0, modified, Outcome.Kind.NOT_RIDE, "neither a file nor a folder", "");
        }
        return FileVisitResult.CONTINUE;
    }

    @Override
    public FileVisitResult visitFileFailed(Path file, IOException e) {
        if (!isHidden(file)) {
            add(file, 0, 0, Outcome.Kind.REFUSED, why(e), "check its permissions");
        }
        return FileVisitResult.CONTINUE;
    }

    @Override
    public FileVisitResult postVisitDirectory(Path folder, @Nullable IOException e) {
        if (e != null) {
            add(folder, 0, 0, Outcome.Kind.REFUSED, "the folder " + why(e), "check its permissions and the disk");
        }
        return FileVisitResult.CONTINUE;
    }

    static String why(IOException e) {
        return e instanceof AccessDeniedException ? "may not be read" : "cannot be read (" + e.getMessage() + ")";
    }

    private void add(Path path, long size, long modified, Outcome.Kind kind, String reason, String hint) {
        FoundAt place = place(path, size, modified);
        add(Found.at(path, place, Outcome.of(place, kind, reason, hint).unsettled()));
    }

    /** A file found below two of the paths goes by the name that comes first. */
    private void add(Found file) {
        found.merge(
                file.place().stamp().path(),
                file,
                (a, b) -> a.place().file().compareTo(b.place().file()) <= 0 ? a : b);
    }

    private FoundAt place(Path path, long size, long modified) {
        Path below = start.relativize(path);
        boolean itself = path.equals(start);
        return new FoundAt(
                text(itself ? given : given.resolve(below)),
                new SourceStamp(text(itself ? absolute : absolute.resolve(below)), size, modified));
    }

    /**
     * A path as text. Bytes that are no letters in this locale's code all look the same as text, so names that hold such
     * are written byte by byte (%E4): two files never bear one name.
     */
    private static String text(Path path) {
        String text = path.toString();
        if (text.indexOf('\uFFFD') < 0) {
            return text;
        }
        StringBuilder exact = new StringBuilder(path.isAbsolute() ? "/" : "");
        Path root = path.toAbsolutePath().getRoot();
        for (Path name : path) {
            String plain = name.toString();
            exact.append(exact.length() > 1 ? "/" : "")
                    .append(
                            plain.indexOf('\uFFFD') < 0
                                    ? plain
                                    : root.resolve(name).toUri().getRawPath().substring(1));
        }
        return exact.toString();
    }

    /** What the rider passes over is told all the same, lest it be looked for. */
    private boolean isIgnored(Path path, BasicFileAttributes attributes) {
        long modified = attributes.lastModifiedTime().toMillis();
        if (path.equals(start) || !ignored.test(place(path, 0, modified).stamp().path())) {
            return false;
        }
        add(path, 0, modified, Outcome.Kind.NOT_RIDE, "ignored, as you set it", "");
        return true;
    }

    private boolean isHidden(Path path) {
        Path name = path.getFileName();
        return !path.equals(start) && name != null && name.toString().startsWith(".");
    }
}
