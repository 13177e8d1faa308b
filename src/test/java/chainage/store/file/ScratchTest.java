package chainage.store.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.ledger.Event;
import chainage.store.KilledWriter;
import chainage.store.LedgerFile;
import chainage.store.LedgerFileTest;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

@Timeout(300)
class ScratchTest {
    @TempDir
    Path folder;

    @Test
    void whatAKilledProcessLeftGoesAndWhatALivingOneHasStays() throws IOException, InterruptedException {
        try (KilledWriter killed = KilledWriter.start(folder, 1, "scratch");
                KilledWriter living = KilledWriter.start(folder, 1, "scratch")) {
            killed.await();
            living.await();
            assertEquals(2, LedgerFileTest.list(folder).size());
            killed.kill();
            WholeFile.replace(folder.resolve("page.html"), "text");
            List<Path> there = LedgerFileTest.list(folder);
            assertEquals(2, there.size(), there.toString());
            assertTrue(Files.exists(there.get(0).resolve("part")), there.toString());
        }
        Path ledger = folder.resolve("ledger.db");
        try (LedgerFile file = LedgerFile.open(ledger)) {
            file.append(List.of(new Event.Undone(1)), Instant.EPOCH);
            file.backup(folder.resolve("copy.db"));
        }
        assertEquals(
                List.of(folder.resolve("copy.db"), ledger, folder.resolve("page.html")), LedgerFileTest.list(folder));
    }

    /** A folder of that name that is not ours, one killed before it wrote, one in use by this very process, a file. */
    @Test
    void onlyWhatIsSurelyOursGoes() throws IOException {
        Path others = Files.createDirectory(folder.resolve(".chainage-1"));
        Files.writeString(others.resolve("notes"), "mine");
        Files.createDirectory(folder.resolve(".chainage-2"));
        Path file = Files.writeString(folder.resolve(".chainage-3.part"), "mine");
        Path ledger = Files.createDirectory(folder.resolve("elsewhere"));
        Files.createSymbolicLink(folder.resolve(".chainage-4"), ledger);
        try (Scratch used = Scratch.in(folder)) {
            Path kept = Files.writeString(used.file("part"), "half");
            WholeFile.replace(folder.resolve("page.html"), "text");
            assertTrue(Files.exists(kept));
        }
        assertEquals(
                List.of(others, file, folder.resolve(".chainage-4"), ledger, folder.resolve("page.html")),
                LedgerFileTest.list(folder));
    }
}
