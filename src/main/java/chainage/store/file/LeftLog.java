package chainage.store.file;

import chainage.store.row.Sql;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * A write-ahead log that a killed process left beside a ledger. SQLite plays whatever log lies beside a file into it,
 * and asks only whether the log is whole; where a copy was put back over the ledger meanwhile, that mixes the pages of
 * two files. So before the first connection it is asked whose the log is:
 *
 * <ul>
 *   <li>A file that says it keeps no log (each copy that the program makes is such a one), that is empty, or whose pages
 *       are of another size cannot have written it. This is certain.
 *   <li>Each state of a ledger has a stamp of chance, and holds that of the state before. A log begins from the state
 *       that the file had, and a file that part of the log was played into bears one of the log's own. So a log belongs
 *       to a file whose stamp is one of these, and to no other; also where the file is an earlier state of the same
 *       ledger. This is certain but for one case, in which nothing breaks: a plain copy of exactly the state that the log
 *       began from is the same file, byte by byte, and the log is played into it.
 *   <li>Where neither has a stamp, an older version wrote them. Then the two are tried together in a place apart. If that
 *       is not sound, or lacks a fact of the file, and the file alone is sound, the log is another's. If it is sound it
 *       is played, and the file as it was alone is kept beside.
 * </ul>
 *
 * A log of another is set aside, never deleted. While any process has the ledger open no question is asked: the first one
 * to open it has done so.
 */
public final class LeftLog {
    /** Where SQLite locks a file, and how many bytes: pending, reserved and shared (sqlite.org/fileformat2.html). */
    private static final long LOCKS = 0x40000000L;

    private static final long LOCK_BYTES = 512;

    /** What may lie beside a ledger and is a part of it: the log, its index, and the journal of a file without a log. */
    static final List<String> PARTS = List.of("-wal", "-shm", "-journal");

    /** The first version of the schema with stamps. */
    private static final int FIRST_STAMPED = 4;

    private static final int HEADER = 100;
    private static final int PAGE_SIZE_AT = 16;
    private static final int WRITE_VERSION_AT = 18;
    private static final int USER_VERSION_AT = 60;
    private static final int APPLICATION_AT = 68;

    /** How many connections this process has to each ledger; its own locks tell it nothing of these. */
    private static final Map<Path, Integer> OPEN = new HashMap<>();

    private enum Owner {
        THIS,
        OTHER,
        UNKNOWN
    }

    private final Path path;
    private final Path log;
    private final Consumer<String> tell;

    private LeftLog(Path path, Consumer<String> tell) {
        this.path = path;
        this.log = Folders.beside(path, "-wal");
        this.tell = tell;
    }

    /**
     * To be called before a file is connected to, and followed by {@link #leave}.
     *
     * @param tell is told in one line what was done
     */
    public static void enter(Path path, Consumer<String> tell) throws IOException {
        synchronized (OPEN) {
            if (!OPEN.containsKey(path)) {
                new LeftLog(path, tell).settle();
            }
            OPEN.merge(path, 1, Integer::sum);
        }
    }

    public static void leave(Path path) {
        synchronized (OPEN) {
            OPEN.computeIfPresent(path, (p, n) -> n == 1 ? null : n - 1);
        }
    }

    private boolean isLeft() throws IOException {
        return Folders.isThere(log, 1);
    }

    private void settle() throws IOException {
        if (!isLeft()) {
            return;
        }
        Folders.Stamp before = Folders.stamp(path);
        // Read before the lock is taken: SQLite closes the file then, and with it goes every lock this process has on
        // it.
        @Nullable String stamp = stamp();
        boolean writable = Files.isWritable(path) && Files.isWritable(Folders.folder(path));
        try (FileChannel file = writable
                        ? FileChannel.open(path, StandardOpenOption.READ, StandardOpenOption.WRITE)
                        : FileChannel.open(path, StandardOpenOption.READ);
                FileLock lock = writable ? file.tryLock(LOCKS, LOCK_BYTES, false) : null) {
            if ((writable && lock == null) || !before.equals(Folders.stamp(path)) || !isLeft()) {
                return;
            }
            Owner owner = owner(file, stamp);
            if (owner == Owner.UNKNOWN && writable) {
                owner = tried(file);
            }
            if (owner == Owner.OTHER && before.equals(Folders.stamp(path))) {
                setAside(writable);
            }
        }
    }

    /**
     * The stamp of the file alone, whatever the log says; null when it has none or cannot be read, as where a power cut
     * stopped the log half way into it.
     */
    private @Nullable String stamp() {
        try (Connection alone = Disk.connect(path, Duration.ZERO, true, true);
                Statement statement = alone.createStatement();
                ResultSet row = statement.executeQuery(Sql.of("stamp"))) {
            byte[] now = row.next() ? row.getBytes(1) : null;
            return now == null ? null : HexFormat.of().formatHex(now);
        } catch (SQLException | LedgerException e) {
            return null;
        }
    }

    private Owner owner(FileChannel file, @Nullable String stamp) throws IOException {
        WriteAheadLog written = WriteAheadLog.read(log).orElse(null);
        if (written == null || !written.committed()) {
            return Owner.THIS; // nothing would be played
        }
        ByteBuffer head = ByteBuffer.allocate(HEADER);
        while (head.hasRemaining() && file.read(head, head.position()) > 0) {
            // Read on.
        }
        if (head.hasRemaining()) {
            return Owner.OTHER;
        }
        if (head.getInt(APPLICATION_AT) != Schema.APPLICATION_ID
                || head.getInt(USER_VERSION_AT) > Schema.SCRIPTS.size()) {
            return Owner.THIS; // of another program, or a later one, and left as it is
        }
        int pageSize = Short.toUnsignedInt(head.getShort(PAGE_SIZE_AT));
        if (head.get(WRITE_VERSION_AT) != 2 || (pageSize == 1 ? 65_536 : pageSize) != written.pageSize()) {
            return Owner.OTHER;
        }
        boolean stamped = head.getInt(USER_VERSION_AT) >= FIRST_STAMPED;
        if (!stamped && !written.stamps().isEmpty() && !written.first().equals(WriteAheadLog.NONE)) {
            return Owner.OTHER;
        }
        if (!stamped || stamp == null || written.stamps().isEmpty()) {
            return Owner.UNKNOWN;
        }
        return written.stamps().contains(stamp) ? Owner.THIS : Owner.OTHER;
    }

    /** Plays the log into a copy of the file, since nothing in the two says whether they belong together. */
    private Owner tried(FileChannel file) throws IOException {
        try (Scratch scratch = Scratch.inTemporary()) {
            Path copy = scratch.file("trial.sqlite");
            // Through the channel that is open: to close another one would let the lock go.
            copy(file, copy, StandardOpenOption.CREATE_NEW);
            Files.copy(log, Folders.beside(copy, "-wal"));
            List<String> alone = soundRows(copy, true);
            List<String> together = soundRows(copy, false);
            if (together == null || (alone != null && !new HashSet<>(together).containsAll(alone))) {
                return alone == null ? Owner.UNKNOWN : Owner.OTHER;
            }
        }
        Path kept = free(path, ".without-log");
        WholeFile.whole(kept, part -> copy(file, part, StandardOpenOption.TRUNCATE_EXISTING));
        tell.accept("a log that a stopped process left beside " + path
                + " was played into it, and nothing is damaged; whether"
                + " it is this file's own nothing in it says, so the file as it was without is kept as " + kept);
        return Owner.THIS;
    }

    private static void copy(FileChannel file, Path to, StandardOpenOption how) throws IOException {
        try (FileChannel out = FileChannel.open(to, StandardOpenOption.WRITE, how)) {
            for (long at = 0; at < file.size(); ) {
                at += file.transferTo(at, file.size() - at, out);
            }
        }
    }

    /**
     * All facts of a copy.
     *
     * @param alone true to look at the file without its log
     * @return null when it is not sound
     */
    private static @Nullable List<String> soundRows(Path copy, boolean alone) {
        List<String> rows = new ArrayList<>();
        try (Connection connection = Disk.connect(copy, Duration.ZERO, alone, alone)) {
            if (!Sql.column(connection, "integrity").equals(List.of("ok"))
                    || !Sql.column(connection, "foreign-keys").isEmpty()) {
                return null;
            }
            rows.addAll(Sql.column(connection, "entry-rows"));
            rows.addAll(Sql.column(connection, "ride-names"));
            return rows;
        } catch (SQLException | LedgerException e) {
            return null;
        }
    }

    /** A name beside a file under which nothing lies yet. */
    public static Path free(Path path, String ending) {
        Path name = Folders.beside(path, ending);
        for (int n = 2; isTaken(name); n++) {
            name = Folders.beside(path, ending + "." + n);
        }
        return name;
    }

    private static boolean isTaken(Path name) {
        return Files.exists(name, LinkOption.NOFOLLOW_LINKS)
                || PARTS.stream().anyMatch(p -> Files.exists(Folders.beside(name, p), LinkOption.NOFOLLOW_LINKS));
    }

    /** Moves what lies beside a file, and is a part of it, to another name of it. */
    public static void moveParts(Path from, Path to) throws IOException {
        for (String part : PARTS) {
            try {
                Files.move(Folders.beside(from, part), Folders.beside(to, part));
            } catch (NoSuchFileException e) {
                // It has none.
            }
        }
        Folders.syncFolder(Folders.folder(to));
    }

    /**
     * Does something to a file while no one has it open, neither here nor in another process.
     *
     * @throws LedgerException when someone has
     */
    public static void alone(Path path, Doing doing) throws IOException {
        synchronized (OPEN) {
            try (FileChannel file = FileChannel.open(path, StandardOpenOption.READ, StandardOpenOption.WRITE);
                    FileLock lock = OPEN.containsKey(path) ? null : file.tryLock(LOCKS, LOCK_BYTES, false)) {
                if (lock == null) {
                    throw Failures.inUse(path);
                }
                doing.run();
            } catch (AccessDeniedException e) {
                throw Failures.notWritable(path, e);
            }
        }
    }

    /** What is done while nobody else may. */
    public interface Doing {
        void run() throws IOException;
    }

    private void setAside(boolean writable) throws IOException {
        if (!writable) {
            throw new LedgerException(
                    LedgerException.Kind.READ_ONLY,
                    "beside " + path + " lies the log of another file, which would spoil it",
                    "it can only be set aside by who may write there; or copy " + path.getFileName()
                            + " alone to a folder of yours and name it with --ledger",
                    null);
        }
        Path other = free(path, ".other");
        moveParts(path, other);
        tell.accept("beside " + path
                + " lay the log of another file, or of this ledger at another time, as after a copy"
                + " was put back; what it holds is not in this ledger, and was kept as "
                + Folders.beside(other, "-wal"));
    }
}
