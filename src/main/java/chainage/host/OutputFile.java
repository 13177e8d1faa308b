package chainage.host;

import chainage.store.file.WholeFile;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.function.UnaryOperator;

/** Makes files for the rider, and never over another's. */
public final class OutputFile {
    /** Bytes in which the mark of our own files stands. */
    private static final int MARK_WITHIN = 1024;

    private OutputFile() {}

    /** What writes a file. */
    public interface Making {
        void at(Path target) throws IOException;
    }

    /**
     * Has a file made.
     *
     * @throws NotMadeException when it has no folder, or one is there and the making does not replace it, or by its name
     *     standard output was meant
     */
    public static void make(Path target, Making making) {
        if (target.toString().equals("-")) {
            throw new NotMadeException(
                    "\"-\" would be a file of that name",
                    "name another; what can be printed is printed without a name");
        }
        Path folder = target.toAbsolutePath().getParent();
        if (folder == null || !Files.isDirectory(folder)) {
            throw new NotMadeException(
                    "\"" + target + "\" lies in no folder that is there", "make the folder first, or name another");
        }
        try {
            making.at(target);
        } catch (FileAlreadyExistsException e) {
            throw new NotMadeException(
                    "\"" + target + "\" is there already", "nothing was overwritten; name another file");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * Writes a text as a new file, whole or not at all, for its owner alone.
     *
     * @throws NotMadeException when it has no folder, or any file is there
     */
    public static void make(Path target, String text) {
        make(target, t -> {
            if (Files.exists(t, LinkOption.NOFOLLOW_LINKS)) {
                throw new FileAlreadyExistsException(t.toString());
            }
            WholeFile.replace(t, text);
        });
    }

    /**
     * Writes a text that is made anew again and again, whole or not at all, for its owner alone.
     *
     * @param mark stands early in every such text; a file without it is somebody else's and stays as it is
     * @throws NotMadeException when it has no folder, or somebody else's file is there
     */
    public static void renew(Path target, String mark, String text) {
        renew(target, mark, before -> text);
    }

    /**
     * The same, from what is there.
     *
     * @param from gets the text that is replaced, empty where there is none
     */
    public static void renew(Path target, String mark, UnaryOperator<String> from) {
        make(target, t -> {
            String before = "";
            if (Files.exists(t, LinkOption.NOFOLLOW_LINKS)) {
                if (!isOurs(t, mark)) {
                    throw new FileAlreadyExistsException(t.toString());
                }
                before = new String(Files.readAllBytes(t), StandardCharsets.UTF_8);
            }
            WholeFile.replace(t, from.apply(before));
        });
    }

    private static boolean isOurs(Path file, String mark) throws IOException {
        try {
            return Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS) && isMarked(file, mark);
        } catch (FileSystemException e) {
            return false;
        }
    }

    /** True when a mark stands early in a file. */
    static boolean isMarked(Path file, String mark) throws IOException {
        try (var in = Files.newInputStream(file)) {
            return new String(in.readNBytes(MARK_WITHIN), StandardCharsets.UTF_8).contains(mark);
        }
    }
}
