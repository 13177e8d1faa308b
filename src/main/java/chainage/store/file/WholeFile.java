package chainage.store.file;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermissions;

/** Files that appear whole or are left as they were, also through a kill or a power cut. */
public final class WholeFile {
    private WholeFile() {}

    /** What is done to a file that is not yet in its place. */
    public interface Filling {
        /** Writes into the file, which is there and empty. */
        void into(Path part) throws IOException;
    }

    /**
     * Writes a text as UTF-8 in place of what is there, if anything, for its owner alone: it tells of rides.
     *
     * @throws LedgerException when the folder cannot be written
     */
    public static void replace(Path target, String text) throws IOException {
        WholeFile.place(
                target, part -> Files.write(part, text.getBytes(StandardCharsets.UTF_8)), part -> move(part, target));
    }

    /**
     * Writes a file in place of what is there, if anything.
     *
     * @param permissions as in {@code rwxr-xr-x}
     * @throws LedgerException when the folder cannot be written
     */
    public static void replace(Path target, String permissions, Filling filling) throws IOException {
        WholeFile.place(
                target,
                part -> {
                    filling.into(part);
                    Files.setPosixFilePermissions(part, PosixFilePermissions.fromString(permissions));
                },
                part -> move(part, target));
    }

    /**
     * Makes a file that only its owner may read, and that appears whole or not at all.
     *
     * @throws FileAlreadyExistsException when something is there already; it is left alone
     */
    public static void whole(Path target, WholeFile.Filling filling) throws IOException {
        if (Files.exists(target, LinkOption.NOFOLLOW_LINKS)) {
            throw new FileAlreadyExistsException(target.toString());
        }
        place(target, filling, part -> Files.move(part, target));
    }

    /**
     * Fills a file beside the target, and moves it there when it is on the disk.
     *
     * @param move gives the part its name; where it does not, the part is deleted
     */
    public static void place(Path target, WholeFile.Filling filling, WholeFile.Filling move) throws IOException {
        Path folder = Folders.folder(target);
        try (Scratch scratch = scratchFor(target)) {
            Path part = Files.createFile(scratch.file("part"), Folders.ownersOnly(folder, "rw-------"));
            filling.into(part);
            try (FileChannel channel = FileChannel.open(part, StandardOpenOption.WRITE)) {
                channel.force(true);
            }
            move.into(part);
            Folders.syncFolder(folder);
        }
    }

    /** Beside the target, since a file is only moved as a whole within one file system. */
    private static Scratch scratchFor(Path target) throws IOException {
        try {
            return Scratch.in(Folders.folder(target));
        } catch (IOException e) {
            throw new LedgerException(
                    LedgerException.Kind.READ_ONLY,
                    target + " cannot be written",
                    "check the disk and the permissions of its folder, or name another file",
                    e);
        }
    }

    private static void move(Path part, Path target) throws IOException {
        Files.move(part, target, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    }
}
