package chainage.store;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import chainage.ledger.Event;
import chainage.store.file.LedgerException;
import chainage.store.file.Schema;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A copy in the ledger's place, and what was there kept. */
@Timeout(300)
class PutBackTest {
    private static final Instant NOW = Instant.parse("2026-03-01T08:00:00Z");

    @TempDir
    Path folder;

    private final List<String> told = new ArrayList<>();

    private Path path() {
        return folder.resolve("ledger.db");
    }

    private Path copy() {
        return folder.resolve("copy.db");
    }

    private Path before() {
        return folder.resolve("ledger.db.before-restore");
    }

    private static void write(Path path, int facts) throws IOException {
        try (LedgerFile ledger = LedgerFile.open(path)) {
            for (int n = 0; n < facts; n++) {
                ledger.append(List.of(new Event.Undone(1)), NOW);
            }
        }
    }

    private static int facts(Path path) throws IOException {
        try (LedgerFile ledger = LedgerFile.open(path)) {
            assertEquals(List.of(), ledger.integrityCheck());
            return ledger.load().entries().size();
        }
    }

    private void backup() throws IOException {
        try (LedgerFile ledger = LedgerFile.openReadOnly(path())) {
            ledger.backup(copy());
        }
    }

    private PutBack put(Path copy) throws IOException {
        return PutBack.put(copy, path(), false, told::add);
    }

    @Test
    void aCopyIsPutInPlaceAndBackAgain() throws IOException {
        write(path(), 3);
        backup();
        byte[] bytes = Files.readAllBytes(copy());
        write(path(), 4);
        PutBack done = put(copy());
        assertEquals(3, done.facts());
        assertEquals(before(), done.before());
        assertEquals(3, facts(path()));
        assertArrayEquals(bytes, Files.readAllBytes(copy()));
        assertEquals(folder.resolve("ledger.db.before-restore.2"), put(before()).before());
        assertEquals(7, facts(path()));
        assertEquals(
                List.of(copy(), path(), before(), folder.resolve("ledger.db.before-restore.2")),
                LedgerFileTest.list(folder));
        assertEquals(List.of(), told);
        assumeTrue(folder.getFileSystem().supportedFileAttributeViews().contains("posix"));
        assertEquals("rw-------", PosixFilePermissions.toString(Files.getPosixFilePermissions(path())));
    }

    @Test
    void whereNothingWasACopyIsPut() throws IOException {
        write(copy(), 2);
        Path ledger = folder.resolve("new/ledger.db");
        assertNull(PutBack.put(copy(), ledger, false, told::add).before());
        assertEquals(2, facts(ledger));
    }

    /** Also where it lies beside its own log, or has several names, as snapshots of a disk have. */
    @Test
    void aPlainCopyWithItsLogIsReadWithIt() throws IOException, InterruptedException {
        write(path(), 2);
        try (KilledWriter writer = KilledWriter.start(path(), 3, "store")) {
            writer.await();
            writer.kill();
        }
        Files.copy(path(), copy());
        Files.copy(folder.resolve("ledger.db-wal"), folder.resolve("copy.db-wal"));
        assertEquals(5, facts(path()));
        assertEquals(5, put(copy()).facts());
        assertEquals(5, facts(path()));
        Files.createLink(folder.resolve("second.db"), copy());
        assertEquals(5, put(copy()).facts());
    }

    @ParameterizedTest
    @ValueSource(strings = {"a log", "damaged", "no ledger at all"})
    void whatWasThereIsKeptWhateverItIs(String what) throws IOException, InterruptedException {
        write(copy(), 2);
        write(path(), 3);
        try (KilledWriter writer = KilledWriter.start(path(), 4, "store")) {
            writer.await();
            writer.kill();
        }
        byte[] log = Files.readAllBytes(folder.resolve("ledger.db-wal"));
        if (what.equals("damaged")) {
            byte[] bytes = Files.readAllBytes(path());
            Arrays.fill(bytes, 100, bytes.length, (byte) 0x5a);
            Files.write(path(), bytes);
        } else if (what.equals("no ledger at all")) {
            Files.writeString(path(), "x".repeat(2000));
        }
        byte[] there = Files.readAllBytes(path());
        put(copy());
        assertEquals(2, facts(path()));
        if (what.equals("a log")) {
            assertEquals(7, facts(before()));
        } else {
            assertArrayEquals(there, Files.readAllBytes(before()));
            Path kept = LedgerFileTest.list(folder).stream()
                    .filter(p -> p.toString().endsWith("-wal"))
                    .findFirst()
                    .orElseThrow();
            assertArrayEquals(log, Files.readAllBytes(kept));
        }
    }

    @Test
    void aLedgerInUseIsLeftAlone() throws IOException, InterruptedException {
        write(path(), 3);
        backup();
        try (KilledWriter writer = KilledWriter.start(path(), 3, "store")) {
            writer.await();
            for (boolean dryRun : List.of(true, false)) {
                LedgerException e =
                        assertThrows(LedgerException.class, () -> PutBack.put(copy(), path(), dryRun, told::add));
                assertEquals(LedgerException.Kind.BUSY, e.kind());
            }
        }
        assertEquals(6, facts(path()));
        try (LedgerFile here = LedgerFile.open(path())) {
            assertEquals(
                    LedgerException.Kind.BUSY,
                    assertThrows(LedgerException.class, () -> put(copy())).kind());
            assertNotNull(here.load());
        }
        assertFalse(Files.exists(before()));
    }

    @Test
    void aCopyThatCannotBeUsedChangesNothing() throws IOException, SQLException {
        write(path(), 3);
        write(copy(), 40);
        byte[] bytes = Files.readAllBytes(copy());
        byte[] torn = bytes.clone();
        Arrays.fill(torn, torn.length / 2, torn.length, (byte) 0x5a);
        Path bad = folder.resolve("bad.db");
        Files.write(bad, torn);
        refused(LedgerException.Kind.CORRUPT, bad);
        Files.writeString(bad, "notes");
        refused(LedgerException.Kind.NOT_A_LEDGER, bad);
        Files.write(bad, new byte[0]);
        refused(LedgerException.Kind.NOT_A_LEDGER, bad);
        Files.write(bad, bytes);
        LedgerFileTest.sql(bad, "pragma user_version = 99");
        refused(LedgerException.Kind.NEWER, bad);
        // What a turned bit in the file's head makes of it.
        LedgerFileTest.sql(bad, "pragma user_version = 4");
        refused(LedgerException.Kind.CORRUPT, bad);
        LedgerFileTest.sql(bad, "pragma user_version = " + Schema.SCRIPTS.size(), "drop trigger ride_is_not_changed");
        refused(LedgerException.Kind.CORRUPT, bad);
        refused(LedgerException.Kind.NOT_A_LEDGER, path());
    }

    private void refused(LedgerException.Kind kind, Path copy) throws IOException {
        LedgerException e = assertThrows(LedgerException.class, () -> put(copy));
        assertEquals(kind, e.kind(), e.getMessage());
        assertEquals(3, facts(path()));
        assertFalse(Files.exists(before()));
        assertTrue(
                LedgerFileTest.list(folder).stream().noneMatch(p -> p.toString().contains(".part")));
    }

    @Test
    void aCopyOfAnEarlierVersionIsBroughtUpToDateAndStaysItself() throws IOException {
        Path saved = Path.of("src/test/resources/ledgers/version-1.sqlite");
        Files.copy(saved, copy());
        write(path(), 1);
        put(copy());
        try (LedgerFile ledger = LedgerFile.openReadOnly(path())) {
            assertEquals(33, ledger.load().entries().size());
        }
        assertEquals(-1, Files.mismatch(saved, copy()));
        assertEquals(List.of(copy(), path(), before()), LedgerFileTest.list(folder));
    }

    @Test
    void aRehearsalChangesNothing() throws IOException {
        write(path(), 3);
        backup();
        write(path(), 1);
        byte[] there = Files.readAllBytes(path());
        assertEquals(3, PutBack.put(copy(), path(), true, told::add).facts());
        assertArrayEquals(there, Files.readAllBytes(path()));
        assertEquals(List.of(copy(), path()), LedgerFileTest.list(folder));
    }
}
