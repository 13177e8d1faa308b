package chainage.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeFalse;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import chainage.ledger.Event;
import chainage.store.file.Folders;
import chainage.store.file.LedgerException;
import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Ledgers that are reached by another name than their own. */
class LinkedLedgerTest {
    private static final Instant NOW = Instant.parse("2026-03-01T08:00:00Z");

    @TempDir
    Path folder;

    private Path kept;
    private Path ledger;
    private Path link;

    @BeforeEach
    void folders() throws IOException {
        // The folder of a test may itself lie behind a link.
        folder = folder.toRealPath();
        kept = Files.createDirectory(folder.resolve("kept"));
        ledger = kept.resolve("ledger.db");
        link = Files.createSymbolicLink(folder.resolve("link.db"), Path.of("kept", "ledger.db"));
    }

    private static void write(Path path, int facts) throws IOException {
        try (LedgerFile file = LedgerFile.open(path)) {
            for (int n = 0; n < facts; n++) {
                file.append(List.of(new Event.Undone(1)), NOW);
            }
        }
    }

    private static int facts(Path path) throws IOException {
        try (LedgerFile file = LedgerFile.openReadOnly(path)) {
            return file.load().entries().size();
        }
    }

    /** Once 9 of 14 facts of two processes were lost, and the file was sound. */
    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void aSecondNameOfTheSameFileIsRefused(boolean toWrite) throws IOException {
        assumeTrue(folder.getFileSystem().supportedFileAttributeViews().contains("unix"));
        write(ledger, 1);
        Path second = Files.createLink(folder.resolve("second.db"), ledger);
        for (Path name : List.of(ledger, second, link)) {
            LedgerException e = assertThrows(
                    LedgerException.class,
                    () -> (toWrite ? LedgerFile.open(name) : LedgerFile.openReadOnly(name)).close());
            assertEquals(LedgerException.Kind.SECOND_NAME, e.kind());
            assertTrue(e.what().contains("under 2 names"), e.what());
        }
        // What the message says to type.
        Path own = kept.resolve("ledger.db.own");
        Files.copy(ledger, own);
        Files.move(own, ledger, java.nio.file.StandardCopyOption.ATOMIC_MOVE);
        write(ledger, 1);
        assertEquals(2, facts(link));
    }

    /** Once it was readable by all. */
    @ParameterizedTest
    @ValueSource(strings = {"kept/new.db", "kept/deep/er/new.db", "kept/../kept/new.db", "chain.db"})
    void aLinkThatLeadsNowhereYetMakesAPrivateLedgerThere(String target) throws IOException {
        assumeTrue(folder.getFileSystem().supportedFileAttributeViews().contains("posix"));
        Files.createSymbolicLink(folder.resolve("chain.db"), kept.resolve("last.db"));
        Path dangling = Files.createSymbolicLink(folder.resolve("dangling.db"), Path.of(target));
        write(dangling, 2);
        Path made = dangling.toRealPath();
        assertTrue(made.startsWith(kept), made.toString());
        assertEquals("rw-------", PosixFilePermissions.toString(Files.getPosixFilePermissions(made)));
        assertTrue(Files.isSymbolicLink(dangling));
        assertEquals(2, facts(dangling));
    }

    @Test
    void linksInACircleAreNoLedger() throws IOException {
        Path one = folder.resolve("one.db");
        Files.createSymbolicLink(one, folder.resolve("two.db"));
        Files.createSymbolicLink(folder.resolve("two.db"), one);
        assertEquals(
                LedgerException.Kind.READ_ONLY,
                assertThrows(LedgerException.class, () -> LedgerFile.open(one)).kind());
    }

    @Test
    void theLogBesideTheFileItselfIsSeenThroughALink() throws IOException, InterruptedException {
        write(ledger, 3);
        try (KilledWriter writer = KilledWriter.start(ledger, 2, "store")) {
            writer.await();
            writer.kill();
        }
        assertFalse(Folders.isAtRest(Folders.real(link)));
        assertEquals(5, facts(link));
    }

    /** Once the facts of the log were left out in silence. */
    @Test
    void aLogThatCannotBeReadInAClosedFolderIsSaidSo() throws IOException, InterruptedException {
        assumeFalse("root".equals(System.getProperty("user.name")), "root may write anywhere");
        write(ledger, 3);
        try (KilledWriter writer = KilledWriter.start(ledger, 2, "store")) {
            writer.await();
            writer.kill();
        }
        Files.delete(kept.resolve("ledger.db-shm"));
        Files.setPosixFilePermissions(ledger, PosixFilePermissions.fromString("r--r--r--"));
        Files.setPosixFilePermissions(kept, PosixFilePermissions.fromString("r-xr-xr-x"));
        try {
            LedgerException e = assertThrows(LedgerException.class, () -> facts(link));
            assertEquals(LedgerException.Kind.READ_ONLY, e.kind());
            assertTrue(e.what().contains("lies a log with its latest facts"), e.what());
            Files.setPosixFilePermissions(kept, PosixFilePermissions.fromString("---------"));
            assertThrows(AccessDeniedException.class, () -> facts(link));
        } finally {
            Files.setPosixFilePermissions(kept, PosixFilePermissions.fromString("rwx------"));
        }
        Files.setPosixFilePermissions(ledger, PosixFilePermissions.fromString("rw-------"));
        assertEquals(5, facts(link));
    }
}
