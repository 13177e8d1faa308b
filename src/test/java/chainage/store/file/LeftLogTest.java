package chainage.store.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.analysis.Snapshot;
import chainage.ledger.Event;
import chainage.store.KilledWriter;
import chainage.store.LedgerFile;
import chainage.store.LedgerFileTest;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** A log left beside a ledger is played into the file that it belongs to, and into no other. */
@Timeout(300)
class LeftLogTest {
    private static final Instant NOW = Instant.parse("2026-03-01T08:00:00Z");

    @TempDir
    Path folder;

    private final List<String> told = new ArrayList<>();

    private Path path() {
        return folder.resolve("ledger.db");
    }

    private Path log() {
        return folder.resolve("ledger.db-wal");
    }

    private Path other() {
        return folder.resolve("ledger.db.other-wal");
    }

    private static void write(Path path, int facts) throws IOException {
        try (LedgerFile ledger = LedgerFile.open(path)) {
            for (int n = 0; n < facts; n++) {
                long number =
                        ledger.append(List.of(new Event.Undone(1)), NOW).get(0).number();
                ledger.appendRides(List.of(LedgerFileTest.delivery((int) number)));
            }
        }
    }

    /** Writes on, and is killed with its log beside. */
    private void writeAndDie(int facts, String how) throws IOException, InterruptedException {
        try (KilledWriter writer = KilledWriter.start(path(), facts, how)) {
            writer.await();
            writer.kill();
        }
        assertTrue(Files.size(log()) > 0);
    }

    private Snapshot open(boolean toWrite) throws IOException {
        try (LedgerFile ledger =
                toWrite ? LedgerFile.open(path(), told::add) : LedgerFile.openReadOnly(path(), told::add)) {
            assertEquals(List.of(), ledger.integrityCheck());
            return ledger.load();
        }
    }

    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void theLogOfAKilledWriterIsPlayed(boolean toWrite) throws IOException, InterruptedException {
        write(path(), 3);
        writeAndDie(4, "store");
        Snapshot after = open(toWrite);
        assertEquals(7, after.entries().size());
        assertEquals(7, after.rides().size());
        assertEquals(List.of(), told);
        assertFalse(Files.exists(other()));
    }

    /** So many facts that the log is played into the file again and again while it is written, and begun anew. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6})
    void whenKilledAtAnyMomentNothingThatWasWrittenIsLost(long seed) throws IOException, InterruptedException {
        write(path(), 1);
        long written;
        try (KilledWriter writer = KilledWriter.start(path(), 2000, "store")) {
            written = writer.await(new Random(seed).nextInt(500));
            written = Math.max(written, writer.kill());
        }
        Snapshot after = open(true);
        assertTrue(after.entries().size() >= written, after.entries().size() + " of " + written + ", seed " + seed);
        assertTrue(after.rides().size() >= written - 1, after.rides().size() + " of " + written);
        assertEquals(List.of(), told);
        assertFalse(Files.exists(other()));
    }

    /** Once its pages were mixed with those of the log. */
    @ParameterizedTest
    @CsvSource({"backup, true", "backup, false", "plain, true", "plain, false", "another, true", "another, false"})
    void theLogOfAnotherStateIsSetAside(String copy, boolean toWrite) throws IOException, InterruptedException {
        Path kept = folder.resolve("kept.db");
        write(path(), 30);
        if (copy.equals("backup")) {
            try (LedgerFile ledger = LedgerFile.openReadOnly(path())) {
                ledger.backup(kept);
            }
        } else if (copy.equals("plain")) {
            Files.copy(path(), kept);
        } else {
            write(kept, 5);
        }
        Snapshot before;
        try (LedgerFile ledger = LedgerFile.openReadOnly(kept)) {
            before = ledger.load();
        }
        write(path(), 1);
        writeAndDie(40, "store");
        byte[] log = Files.readAllBytes(log());
        Files.copy(kept, path(), StandardCopyOption.REPLACE_EXISTING);
        assertEquals(before, open(toWrite));
        assertEquals(
                List.of("beside " + path()
                        + " lay the log of another file, or of this ledger at another time, as after a"
                        + " copy was put back; what it holds is not in this ledger, and was kept as " + other()),
                told);
        assertEquals(-1, Files.mismatch(other(), Files.write(folder.resolve("log"), log)));
        assertEquals(before, open(toWrite));
        assertEquals(1, told.size());
    }

    /** Every plain copy of a growing ledger, put back over it in the end. */
    @Test
    void anyEarlierCopyIsAsItWas() throws IOException, InterruptedException {
        List<Path> copies = new ArrayList<>();
        List<Snapshot> states = new ArrayList<>();
        for (int n = 0; n < 6; n++) {
            write(path(), 1 + n * 3);
            copies.add(Files.copy(path(), folder.resolve("copy-" + n)));
            states.add(open(false));
        }
        write(path(), 1);
        writeAndDie(30, "store");
        byte[] log = Files.readAllBytes(log());
        for (int n = 0; n < copies.size(); n++) {
            Files.copy(copies.get(n), path(), StandardCopyOption.REPLACE_EXISTING);
            Files.write(log(), log);
            Files.deleteIfExists(folder.resolve("ledger.db-shm"));
            assertEquals(states.get(n), open(n % 2 == 0), "copy " + n);
            assertEquals(n + 1, told.size());
        }
        assertTrue(Files.exists(folder.resolve("ledger.db.other.6-wal")));
    }

    @Test
    void aLogWhoseLedgerIsGoneIsKept() throws IOException, InterruptedException {
        write(path(), 3);
        writeAndDie(2, "store");
        Files.delete(path());
        assertEquals(List.of(), open(true).entries());
        assertEquals(1, told.size(), told.toString());
        assertTrue(Files.exists(other()));
    }

    @Test
    void aLogInUseIsLeftAlone() throws IOException, InterruptedException {
        write(path(), 3);
        try (KilledWriter writer = KilledWriter.start(path(), 3, "store")) {
            writer.await();
            assertEquals(6, open(false).entries().size());
            assertEquals(6, open(true).entries().size());
            assertTrue(Files.size(log()) > 0);
        }
        assertEquals(6, open(true).entries().size());
        assertEquals(List.of(), told);
    }

    /** What a program of an older version left bears no stamp. */
    @Test
    void aLogWithoutStampIsPlayedWhereItFitsAndTheFileKept() throws IOException, InterruptedException {
        Files.copy(Path.of("src/test/resources/ledgers/version-2.sqlite"), path());
        writeAndDie(3, "plain");
        assertEquals(48, open(true).entries().size());
        Path without = folder.resolve("ledger.db.without-log");
        assertEquals(1, told.size(), told.toString());
        assertTrue(told.get(0).endsWith("is kept as " + without), told.get(0));
        try (LedgerFile ledger = LedgerFile.open(without)) {
            assertEquals(45, ledger.load().entries().size());
        }
    }

    @Test
    void aLogWithoutStampIsSetAsideWhereItDoesNotFit() throws IOException, InterruptedException {
        Files.copy(Path.of("src/test/resources/ledgers/version-2.sqlite"), path());
        writeAndDie(3, "plain");
        Path another = folder.resolve("another.db");
        write(another, 300);
        Files.copy(another, path(), StandardCopyOption.REPLACE_EXISTING);
        assertEquals(300, open(true).entries().size());
        assertTrue(Files.exists(other()), told.toString());
    }
}
