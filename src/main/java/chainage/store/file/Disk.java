package chainage.store.file;

import chainage.quantity.PlainText;
import chainage.store.row.Sql;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.Arrays;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.sqlite.SQLiteConfig;

/** The ledger as a file: making it, connecting to it, and telling what went wrong. */
public final class Disk {
    private static final byte[] SQLITE = "SQLite format 3\0".getBytes(StandardCharsets.US_ASCII);

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
            throw Failures.failure(path, e);
        } catch (LinkageError e) {
            // After a first try that could not load its library the driver takes it for loaded.
            throw Failures.failure(path, new SQLException("the library that reads it cannot be loaded", e));
        }
    }

    /** Refuses what is no SQLite file at all. An empty file passes: it is a ledger whose making was cut short. */
    public static void refuseOtherFiles(Path path) throws IOException {
        if (!Files.isRegularFile(path)) {
            throw Failures.notALedger(path);
        }
        byte[] head;
        try (InputStream in = Files.newInputStream(path)) {
            head = in.readNBytes(SQLITE.length);
        } catch (IOException e) {
            throw new LedgerException(
                    LedgerException.Kind.IO, path + " cannot be read", "check its permissions and the disk", e);
        }
        if (head.length > 0 && !Arrays.equals(head, SQLITE)) {
            throw Failures.notALedger(path);
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

    /** Takes back an open transaction after a failure, which stays the one to report. */
    public static void rollback(Connection connection) {
        try (Statement statement = connection.createStatement()) {
            statement.execute(Sql.of("rollback"));
        } catch (SQLException e) {
            // The database has rolled back by itself already, as it does after a failed write.
        }
    }
}
