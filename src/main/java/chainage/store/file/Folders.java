package chainage.store.file;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;

/** Files and folders as the system has them: whose they are, behind which links, and what lies beside them. */
public final class Folders {
    /** As many links from one to the next as Linux follows. */
    private static final int MAX_LINKS = 40;

    private Folders() {}

    /**
     * The file itself, behind all links, also where it is not there yet: there SQLite keeps its log, there it is made, and
     * its folder is the one that must be open to us.
     */
    public static Path real(Path given) throws IOException {
        Path path = given.toAbsolutePath();
        try {
            for (int links = 0; links <= MAX_LINKS; links++) {
                try {
                    return path.toRealPath();
                } catch (NoSuchFileException e) {
                    Path folder = folder(path);
                    if (Files.isDirectory(folder)) {
                        path = folder.toRealPath().resolve(path.getFileName());
                    }
                    if (!Files.isSymbolicLink(path)) {
                        return path;
                    }
                    path = path.resolveSibling(Files.readSymbolicLink(path));
                }
            }
        } catch (AccessDeniedException e) {
            throw e; // of which its name says all
        } catch (FileSystemException e) {
            throw Failures.notWritable(given, e);
        }
        throw Failures.notWritable(given, null);
    }

    /** Makes an empty file that only its owner may read, since rides tell where someone lives. */
    public static void createPrivate(Path path) throws IOException {
        try {
            Files.createFile(path, ownersOnly(path, "rw-------"));
        } catch (FileAlreadyExistsException e) {
            // Another process was faster; it made the same.
        } catch (IOException e) {
            throw Failures.notWritable(path, e);
        }
    }

    public static void createFolders(Path folder) throws IOException {
        try {
            Files.createDirectories(folder, ownersOnly(folder, "rwx------"));
        } catch (IOException e) {
            throw Failures.notWritable(folder, e);
        }
    }

    /** Makes new names in a folder last through a power cut, where the system lets a folder be opened. */
    static void syncFolder(Path folder) throws IOException {
        FileChannel channel;
        try {
            channel = FileChannel.open(folder, StandardOpenOption.READ);
        } catch (IOException e) {
            return; // Windows opens none, and a folder may be open for writing alone
        }
        try (channel) {
            channel.force(true);
        }
    }

    static FileAttribute<?>[] ownersOnly(Path path, String permissions) {
        return path.getFileSystem().supportedFileAttributeViews().contains("posix")
                ? new FileAttribute<?>[] {
                    PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString(permissions))
                }
                : new FileAttribute<?>[0];
    }

    /**
     * True when a file is there and so large at least.
     *
     * @throws AccessDeniedException when that cannot be seen; to say no then would leave out facts
     */
    static boolean isThere(Path file, long bytes) throws IOException {
        try {
            return Files.size(file) >= bytes;
        } catch (NoSuchFileException e) {
            return false;
        }
    }

    /** What tells a file from another one under the same name; where the system has nothing of the kind, the name. */
    public static Object key(Path path) throws IOException {
        Object key = Files.readAttributes(path, BasicFileAttributes.class).fileKey();
        return key == null ? path : key;
    }

    /** The folder that a file lies in. */
    public static Path folder(Path file) {
        Path parent = file.toAbsolutePath().getParent();
        if (parent == null) {
            throw new IllegalArgumentException(file + " is no file");
        }
        return parent;
    }

    /** The name of what lies beside a file. */
    static Path beside(Path path, String ending) {
        return path.resolveSibling(path.getFileName() + ending);
    }

    /**
     * What tells whether a file was written meanwhile.
     *
     * @param atRest no log or journal lies beside it, so that the file alone is the whole ledger
     */
    public record Stamp(long size, FileTime modified, boolean atRest) {}

    public static Stamp stamp(Path path) throws IOException {
        return new Stamp(Files.size(path), Files.getLastModifiedTime(path), isAtRest(path));
    }

    /** True when no write-ahead log and no journal lies beside the file, so that the file alone is the whole ledger. */
    public static boolean isAtRest(Path path) throws IOException {
        return !isThere(Folders.beside(path, "-journal"), 0) && !isThere(Folders.beside(path, "-wal"), 1);
    }
}
