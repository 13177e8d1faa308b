package chainage.store.file;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
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
        Disk.place(
                target, part -> Files.write(part, text.getBytes(StandardCharsets.UTF_8)), part -> move(part, target));
    }

    /**
     * Writes a file in place of what is there, if anything.
     *
     * @param permissions as in {@code rwxr-xr-x}
     * @throws LedgerException when the folder cannot be written
     */
    public static void replace(Path target, String permissions, Filling filling) throws IOException {
        Disk.place(
                target,
                part -> {
                    filling.into(part);
                    Files.setPosixFilePermissions(part, PosixFilePermissions.fromString(permissions));
                },
                part -> move(part, target));
    }

    private static void move(Path part, Path target) throws IOException {
        Files.move(part, target, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    }
}
