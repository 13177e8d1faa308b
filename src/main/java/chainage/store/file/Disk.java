package chainage.store.file;

import chainage.quantity.PlainText;
import chainage.store.row.Sql;
import java.io.IOException;
import java.io.InputStream;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.Arrays;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.jspecify.annotations.Nullable;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

/** The ledger as a file: making it, connecting to it, and telling what went wrong. */
public final class Disk {
    private static final byte[] SQLITE = "SQLite format 3\0".getBytes(StandardCharsets.US_ASCII);

    /** As many links from one to the next as Linux follows. */
    private static final int MAX_LINKS = 40;

    /** Held, since the platform forgets a logger that no one holds, and with it that it shall be silent. */
    private static final Logger DRIVER = Logger.getLogger("org.sqlite");

    static {
        // What goes wrong is told once, in our words; the driver would print its traces beside that.
        DRIVER.setLevel(Level.OFF);
        SqliteLibrary.choose();
    }

    private Disk() {}

    /**
     * Connects to an existing file.
     *
     * @param readOnly nothing is written
     * @param frozen no one else is writing, so that neither locks nor the log's index are needed
     */
    public static Connection connect(Path path, Duration patience, boolean readOnly, boolean frozen)
            throws LedgerException {
        SQLiteConfig config = new SQLiteConfig();
        config.setBusyTimeout(Math.toIntExact(patience.toMillis()));
        config.enforceForeignKeys(true);
        // A ride more or less after a power cut would do no harm, a lost treatment would.
        config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
        config.setReadOnly(readOnly);
        // For a new file only. With the usual pages of 4 KB a full ride took 2,316 bytes, with these 1,826 (SizeTest).
        config.setPageSize(16_384);
        String uri = "jdbc:sqlite:" + path.toUri() + (frozen ? "?immutable=1" : "");
        try {
            return config.createConnection(uri);
        } catch (SQLException e) {
            throw failure(path, e);
        } catch (LinkageError e) {
            // After a first try that could not load its library the driver takes it for loaded.
            throw failure(path, new SQLException("the library that reads it cannot be loaded", e));
        }
    }

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
            throw notWritable(given, e);
        }
        throw notWritable(given, null);
    }

    /** Makes an empty file that only its owner may read, since rides tell where someone lives. */
    public static void createPrivate(Path path) throws IOException {
        try {
            Files.createFile(path, ownersOnly(path, "rw-------"));
        } catch (FileAlreadyExistsException e) {
            // Another process was faster; it made the same.
        } catch (IOException e) {
            throw notWritable(path, e);
        }
    }

    public static void createFolders(Path folder) throws IOException {
        try {
            Files.createDirectories(folder, ownersOnly(folder, "rwx------"));
        } catch (IOException e) {
            throw notWritable(folder, e);
        }
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
        Path folder = folder(target);
        try (Scratch scratch = scratchFor(target)) {
            Path part = Files.createFile(scratch.file("part"), ownersOnly(folder, "rw-------"));
            filling.into(part);
            try (FileChannel channel = FileChannel.open(part, StandardOpenOption.WRITE)) {
                channel.force(true);
            }
            move.into(part);
            syncFolder(folder);
        }
    }

    /** Beside the target, since a file is only moved as a whole within one file system. */
    private static Scratch scratchFor(Path target) throws IOException {
        try {
            return Scratch.in(folder(target));
        } catch (IOException e) {
            throw new LedgerException(
                    LedgerException.Kind.READ_ONLY,
                    target + " cannot be written",
                    "check the disk and the permissions of its folder, or name another file",
                    e);
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

    /** Refuses what is no SQLite file at all. An empty file passes: it is a ledger whose making was cut short. */
    public static void refuseOtherFiles(Path path) throws IOException {
        if (!Files.isRegularFile(path)) {
            throw Schema.notALedger(path);
        }
        byte[] head;
        try (InputStream in = Files.newInputStream(path)) {
            head = in.readNBytes(SQLITE.length);
        } catch (IOException e) {
            throw new LedgerException(
                    LedgerException.Kind.IO, path + " cannot be read", "check its permissions and the disk", e);
        }
        if (head.length > 0 && !Arrays.equals(head, SQLITE)) {
            throw Schema.notALedger(path);
        }
    }

    /**
     * SQLite names the log by the name that the file was opened under. Under another name (a hard link) another log would
     * be written, and what one of them holds be lost.
     */
    public static void refuseSecondName(Path path) throws IOException {
        if (path.getFileSystem().supportedFileAttributeViews().contains("unix")
                && Files.getAttribute(path, "unix:nlink") instanceof Integer names
                && names > 1) {
            String typed = PlainText.typed(path.toString());
            String own = PlainText.typed(path + ".own");
            throw new LedgerException(
                    LedgerException.Kind.SECOND_NAME,
                    path + " is one file under " + names
                            + " names (hard links), and what is stated under one would be lost under another",
                    "make it a file of its own: cp -p " + typed + " " + own + " && mv " + own + " " + typed
                            + "; a name that only points to it (ln -s) does no harm",
                    null);
        }
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
        return !isThere(LeftLog.beside(path, "-journal"), 0) && !isThere(LeftLog.beside(path, "-wal"), 1);
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

    /** Takes back an open transaction after a failure, which stays the one to report. */
    public static void rollback(Connection connection) {
        try (Statement statement = connection.createStatement()) {
            statement.execute(Sql.of("rollback"));
        } catch (SQLException e) {
            // The database has rolled back by itself already, as it does after a failed write.
        }
    }

    public static LedgerException notWritable(Path path, @Nullable Throwable cause) {
        return new LedgerException(
                LedgerException.Kind.READ_ONLY,
                path + " cannot be written",
                "check the permissions of it and its folder, or name another ledger with --ledger",
                cause);
    }

    public static LedgerException corrupt(Path path, String what, @Nullable Throwable cause) {
        return new LedgerException(
                LedgerException.Kind.CORRUPT,
                path + " is damaged: " + what,
                "put a copy of it back (chainage restore COPY), or move it away and import the ride files again",
                cause);
    }

    /** True when a row broke a rule of the schema. */
    public static boolean isConstraint(SQLException e) {
        return primary(e) == SQLiteErrorCode.SQLITE_CONSTRAINT.code;
    }

    /** True when a statement does not fit what is there. */
    static boolean isError(SQLException e) {
        return primary(e) == SQLiteErrorCode.SQLITE_ERROR.code;
    }

    /** True when another process or connection holds the lock that was needed. */
    public static boolean isBusy(SQLException e) {
        int primary = primary(e);
        return primary == SQLiteErrorCode.SQLITE_BUSY.code || primary == SQLiteErrorCode.SQLITE_LOCKED.code;
    }

    private static int primary(SQLException e) {
        SQLiteErrorCode code =
                e instanceof SQLiteException s ? s.getResultCode() : SQLiteErrorCode.getErrorCode(e.getErrorCode());
        // The low byte is the primary code, the rest tells variants of it apart.
        return code.code & 0xff;
    }

    private static boolean hasLog(Path path) {
        try {
            return !isAtRest(path);
        } catch (IOException e) {
            return true;
        }
    }

    /**
     * Says what a failure of the database means.
     *
     * @throws IllegalStateException when it is our own mistake
     */
    public static LedgerException failure(Path path, SQLException e) {
        int primary = primary(e);
        if (isBusy(e)) {
            return new LedgerException(
                    LedgerException.Kind.BUSY,
                    path + " is being written by another process",
                    "try again when that has finished",
                    e);
        } else if (primary == SQLiteErrorCode.SQLITE_NOTADB.code) {
            return Schema.notALedger(path);
        } else if (primary == SQLiteErrorCode.SQLITE_CORRUPT.code) {
            return corrupt(path, String.valueOf(e.getMessage()), e);
        } else if (String.valueOf(e.getMessage()).contains("no such table")
                || String.valueOf(e.getMessage()).contains("no such column")) {
            // Our statements name only what the schema has, so another hand took it away.
            return corrupt(path, "a part of it is missing (" + e.getMessage() + ")", e);
        } else if (primary == SQLiteErrorCode.SQLITE_CANTOPEN.code && !Files.isWritable(folder(path)) && hasLog(path)) {
            return new LedgerException(
                    LedgerException.Kind.READ_ONLY,
                    "beside " + path + " lies a log with its latest facts, and to read it takes leave to write in "
                            + folder(path),
                    "ask who keeps it for that leave, or for a copy (chainage backup)",
                    e);
        } else if (primary == SQLiteErrorCode.SQLITE_READONLY.code || primary == SQLiteErrorCode.SQLITE_PERM.code) {
            return notWritable(path, e);
        } else if (primary == SQLiteErrorCode.SQLITE_CONSTRAINT.code
                || primary == SQLiteErrorCode.SQLITE_MISUSE.code
                || primary == SQLiteErrorCode.SQLITE_ERROR.code
                || primary == SQLiteErrorCode.SQLITE_RANGE.code) {
            throw new IllegalStateException("the ledger file refused a statement", e);
        }
        return new LedgerException(
                LedgerException.Kind.IO,
                path + " cannot be used: " + e.getMessage(),
                "check free space and the permissions of its folder",
                e);
    }
}
