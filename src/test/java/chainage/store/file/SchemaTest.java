package chainage.store.file;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.analysis.Snapshot;
import chainage.ledger.Event;
import chainage.quantity.ContentDigest;
import chainage.store.LedgerFile;
import chainage.store.LedgerFileTest;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;
import org.junit.jupiter.api.RepeatedTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SchemaTest {
    private static final Instant NOW = Instant.parse("2026-03-01T08:00:00Z");
    private static final Duration PATIENCE = Duration.ofSeconds(5);

    private static final int NOW_VERSION = Schema.SCRIPTS.size();

    /** A further version, as a later program might have it. */
    private static final String NEXT =
            "create table extra (x integer) strict; pragma user_version = " + (NOW_VERSION + 1) + ";";

    private static final Schema LATER = new Schema(and(NEXT));

    private static List<String> and(String... further) {
        List<String> scripts = new ArrayList<>(Schema.SCRIPTS);
        scripts.addAll(List.of(further));
        return scripts;
    }

    @TempDir
    Path folder;

    private Path path() {
        return folder.resolve("ledger.db");
    }

    private Path copy() {
        return folder.resolve("ledger.db.version-" + NOW_VERSION);
    }

    private void makeLedger() throws IOException {
        try (LedgerFile ledger = LedgerFile.open(path())) {
            ledger.append(List.of(new Event.Undone(1)), NOW);
        }
    }

    @Test
    void anOlderLedgerIsCopiedAndThenBroughtUpToDate() throws IOException, SQLException {
        makeLedger();
        Snapshot before;
        try (LedgerFile ledger = LedgerFile.open(path())) {
            before = ledger.load();
        }
        try (LedgerFile ledger = LedgerFile.open(path(), PATIENCE, LATER)) {
            assertEquals(before, ledger.load());
        }
        LedgerFileTest.sql(path(), "insert into extra values (1)");
        // The copy is a sound ledger of the old version.
        try (LedgerFile ledger = LedgerFile.open(copy())) {
            assertEquals(before, ledger.load());
            assertEquals(List.of(), ledger.integrityCheck());
        }
        // Up to date now, so no second copy.
        LedgerFile.open(path(), PATIENCE, LATER).close();
        assertEquals(List.of(path(), copy()), LedgerFileTest.list(folder));
    }

    @Test
    void aCopyNeverReplacesAnEarlierOne() throws IOException {
        makeLedger();
        Files.writeString(copy(), "precious");
        LedgerFile.open(path(), PATIENCE, LATER).close();
        assertEquals("precious", Files.readString(copy()));
        assertTrue(Files.exists(folder.resolve("ledger.db.version-" + NOW_VERSION + ".2")));
    }

    /** Once two that upgraded at the same time wrote their copies to one name, and one of them failed. */
    @RepeatedTest(40)
    void severalThatUpgradeTheSameLedgerAtOnceLeaveWholeCopies()
            throws IOException, InterruptedException, ExecutionException {
        makeLedger();
        ExecutorService pool = Executors.newFixedThreadPool(6);
        try {
            Callable<Void> upgrade = () -> {
                LedgerFile.open(path(), Duration.ofSeconds(60), LATER).close();
                return null;
            };
            for (Future<Void> done : pool.invokeAll(Collections.nCopies(6, upgrade))) {
                done.get();
            }
        } finally {
            pool.shutdownNow();
        }
        // Where two close the ledger at the same instant neither is the last, and its log and the log's index stay.
        List<Path> own =
                Stream.of("", "-wal", "-shm").map(end -> Path.of(path() + end)).toList();
        List<Path> copies = LedgerFileTest.list(folder).stream()
                .filter(p -> !own.contains(p))
                .toList();
        assertFalse(copies.isEmpty());
        for (Path copy : copies) {
            try (LedgerFile ledger = LedgerFile.openReadOnly(copy)) {
                assertEquals(List.of(), ledger.integrityCheck(), copy.toString());
                assertEquals(1, ledger.load().entries().size());
            }
        }
    }

    @Test
    void anUpgradeThatFailsLeavesTheOldVersion() throws IOException {
        makeLedger();
        Schema broken = new Schema(and(NEXT, "create table more (x integer) strict; create table entry (x integer);"));
        LedgerException e = assertThrows(LedgerException.class, () -> LedgerFile.open(path(), PATIENCE, broken));
        assertEquals(LedgerException.Kind.CORRUPT, e.kind());
        try (LedgerFile ledger = LedgerFile.open(path())) {
            assertEquals(1, ledger.load().entries().size());
        }
        LedgerFile.open(path(), PATIENCE, LATER).close();
    }

    @Test
    void readingAnOlderLedgerAsksForAnUpgrade() throws IOException {
        makeLedger();
        LedgerException e = assertThrows(LedgerException.class, () -> LedgerFile.openReadOnly(path(), LATER));
        assertEquals(LedgerException.Kind.READ_ONLY, e.kind());
        assertFalse(Files.exists(copy()));
    }

    @Test
    void aNewerLedgerIsLeftUntouched() throws IOException {
        LedgerFile.open(path(), PATIENCE, LATER).close();
        byte[] before = Files.readAllBytes(path());
        LedgerException e = assertThrows(LedgerException.class, () -> LedgerFile.open(path()));
        assertEquals(LedgerException.Kind.NEWER, e.kind());
        assertTrue(e.what().contains("made by a newer chainage"), e.what());
        assertTrue(e.hint().contains("upgrade"), e.hint());
        assertThrows(LedgerException.class, () -> LedgerFile.openReadOnly(path()));
        assertArrayEquals(before, Files.readAllBytes(path()));
        assertEquals(List.of(path()), LedgerFileTest.list(folder));
    }

    @Test
    void aNewerLedgerInUseIsLeftUntouchedToo() throws IOException {
        try (LedgerFile inUse = LedgerFile.open(path(), PATIENCE, LATER)) {
            inUse.append(List.of(new Event.Undone(1)), NOW);
            Path log = folder.resolve("ledger.db-wal");
            byte[] before = Files.readAllBytes(path());
            byte[] logBefore = Files.readAllBytes(log);
            assertTrue(logBefore.length > 0);
            LedgerException e = assertThrows(LedgerException.class, () -> LedgerFile.open(path()));
            assertEquals(LedgerException.Kind.NEWER, e.kind());
            assertArrayEquals(before, Files.readAllBytes(path()));
            assertArrayEquals(logBefore, Files.readAllBytes(log));
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"x", "SQLite format 2\0 and so on", "a text that is longer than any file header would be"})
    void otherFilesAreLeftUntouched(String content) throws IOException {
        Files.writeString(path(), content);
        assertEquals(LedgerException.Kind.NOT_A_LEDGER, refusal());
        assertArrayEquals(content.getBytes(StandardCharsets.UTF_8), Files.readAllBytes(path()));
    }

    @Test
    void otherDatabasesAreLeftUntouched() throws IOException, SQLException {
        LedgerFileTest.sql(path(), "create table entry (number integer primary key)");
        byte[] before = Files.readAllBytes(path());
        assertEquals(LedgerException.Kind.NOT_A_LEDGER, refusal());
        assertArrayEquals(before, Files.readAllBytes(path()));
        assertEquals(List.of(path()), LedgerFileTest.list(folder));
    }

    @Test
    void aFolderIsNoLedger() throws IOException {
        Files.createDirectory(path());
        assertEquals(LedgerException.Kind.NOT_A_LEDGER, refusal());
    }

    private LedgerException.Kind refusal() {
        LedgerException reading = assertThrows(LedgerException.class, () -> LedgerFile.openReadOnly(path()));
        LedgerException writing = assertThrows(LedgerException.class, () -> LedgerFile.open(path()));
        assertEquals(reading.kind(), writing.kind());
        return writing.kind();
    }

    /** Version 2 told the date in words alone. */
    @Test
    void whatVersionTwoRefusedForItsDateIsTriedAgain() throws IOException, SQLException {
        Instant ahead = Instant.parse("2026-06-01T08:00:00.5Z");
        Files.copy(Path.of("src/test/resources/ledgers/version-2.sqlite"), path());
        String insert = "insert into content (digest, outcome, reason, mend) values (x'%s', 'refused', '%s', '')";
        ContentDigest late = ContentDigest.of(new byte[] {1});
        ContentDigest broken = ContentDigest.of(new byte[] {2});
        LedgerFileTest.sql(
                path(),
                insert.formatted(
                        late.hex(),
                        "part 1 refused: an activity (cycling) dated " + ahead + ", a clock that was not set; part 2"));
        LedgerFileTest.sql(path(), insert.formatted(broken.hex(), "the XML is broken, dated or not"));
        try (LedgerFile ledger = LedgerFile.open(path())) {
            assertEquals(List.of(), ledger.integrityCheck());
            assertTrue(ledger.seen(ahead.minusMillis(501)).known(late).isPresent());
            assertTrue(ledger.seen(ahead).known(late).isEmpty());
            assertTrue(ledger.seen(ahead).known(broken).isPresent());
        }
    }
}
