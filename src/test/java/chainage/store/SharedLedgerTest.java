package chainage.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeFalse;

import chainage.ledger.Event;
import chainage.store.file.LedgerException;
import chainage.store.row.RowSum;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.RepeatedTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

@Timeout(300)
class SharedLedgerTest {
    private static final Instant NOW = Instant.parse("2026-03-01T08:00:00Z");

    @TempDir
    Path folder;

    private Path path() {
        return folder.resolve("ledger.db");
    }

    /** Repeated, since a ledger in the making once seemed damaged to another process in one run of many. */
    @RepeatedTest(12)
    void severalWritersFromTheFirstMomentOnLoseNothing() throws IOException, InterruptedException, ExecutionException {
        write(4, 25);
    }

    /** Once one of them was told the ledger was busy, in one of 400 runs. */
    @RepeatedTest(40)
    void manyThatMakeTheSameLedgerAtOnceAllWaitTheirTurn()
            throws IOException, InterruptedException, ExecutionException {
        write(8, 2);
    }

    private void write(int writers, int rounds) throws IOException, InterruptedException, ExecutionException {
        ExecutorService pool = Executors.newFixedThreadPool(writers);
        try {
            List<Callable<Void>> tasks = new ArrayList<>();
            for (int w = 0; w < writers; w++) {
                tasks.add(() -> {
                    for (int i = 0; i < rounds; i++) {
                        try (LedgerFile ledger = LedgerFile.open(path(), Duration.ofSeconds(60))) {
                            // Each states how many entries it saw: with a lost update two would say the same.
                            ledger.update(
                                    NOW,
                                    s -> new LedgerFile.Decision<>(
                                            List.of(new Event.Undone(
                                                    1 + s.entries().size())),
                                            ""));
                        }
                    }
                    return null;
                });
            }
            for (Future<Void> done : pool.invokeAll(tasks)) {
                done.get();
            }
        } finally {
            pool.shutdownNow();
        }
        try (LedgerFile ledger = LedgerFile.openReadOnly(path())) {
            var entries = ledger.load().entries();
            assertEquals(writers * rounds, entries.size());
            for (int i = 0; i < entries.size(); i++) {
                assertEquals(new Event.Undone(1 + i), entries.get(i).event());
            }
        }
    }

    @Test
    void aWriterThatWaitsTooLongSaysBusyWhileReadersGoOn() throws IOException, SQLException {
        LedgerFile.open(path()).close();
        try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + path());
                Statement statement = other.createStatement()) {
            statement.executeUpdate("begin immediate");
            RowSum.register(other);
            statement.executeUpdate("insert into entry values (1, 1, 0, 'undone', '{\"target\":1}',"
                    + " row_sum(1, 1, 0, 'undone', '{\"target\":1}'))");
            try (LedgerFile ledger = LedgerFile.open(path(), Duration.ofMillis(50));
                    LedgerFile reader = LedgerFile.openReadOnly(path())) {
                LedgerException e =
                        assertThrows(LedgerException.class, () -> ledger.append(List.of(new Event.Undone(1)), NOW));
                assertEquals(LedgerException.Kind.BUSY, e.kind());
                assertEquals(List.of(), reader.load().entries());
                statement.executeUpdate("commit");
                assertEquals(1, reader.load().entries().size());
                assertEquals(
                        2,
                        ledger.append(List.of(new Event.Undone(1)), NOW).get(0).number());
            }
        }
    }

    @Test
    void aWriterThatDiesLeavesNothingHalfDone() throws IOException, SQLException {
        LedgerFile.open(path()).close();
        Path copied = folder.resolve("after/ledger.db");
        Files.createDirectory(folder.resolve("after"));
        try (Connection dying = DriverManager.getConnection("jdbc:sqlite:" + path());
                Statement statement = dying.createStatement()) {
            // So small a cache that the open transaction reaches the log on disk.
            statement.executeUpdate("pragma cache_size = 1");
            statement.executeUpdate("begin immediate");
            for (int n = 1; n <= 2000; n++) {
                statement.executeUpdate(
                        "insert into entry values (" + n + ", " + n + ", 0, 'undone', '{\"target\":1}', 0)");
            }
            Path log = folder.resolve("ledger.db-wal");
            assertTrue(Files.size(log) > 0);
            // What a power cut at this moment would leave on disk.
            Files.copy(path(), copied);
            Files.copy(log, folder.resolve("after/ledger.db-wal"));
        }
        try (LedgerFile ledger = LedgerFile.open(copied)) {
            assertEquals(List.of(), ledger.load().entries());
            assertEquals(List.of(), ledger.integrityCheck());
            assertEquals(
                    1, ledger.append(List.of(new Event.Undone(1)), NOW).get(0).number());
        }
    }

    @Test
    void aLedgerInAFolderThatCannotBeWrittenCanBeRead() throws IOException {
        assumeFalse("root".equals(System.getProperty("user.name")), "root may write anywhere");
        try (LedgerFile ledger = LedgerFile.open(path())) {
            ledger.append(List.of(new Event.Undone(1)), NOW);
        }
        Files.setPosixFilePermissions(path(), PosixFilePermissions.fromString("r--r--r--"));
        Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("r-xr-xr-x"));
        try (LedgerFile ledger = LedgerFile.openReadOnly(path())) {
            assertEquals(1, ledger.load().entries().size());
            assertEquals(
                    LedgerException.Kind.READ_ONLY,
                    assertThrows(LedgerException.class, () -> LedgerFile.open(path()))
                            .kind());
            assertEquals(
                    LedgerException.Kind.READ_ONLY,
                    assertThrows(LedgerException.class, () -> LedgerFile.open(folder.resolve("new.db")))
                            .kind());
        } finally {
            Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwxr-xr-x"));
        }
    }
}
