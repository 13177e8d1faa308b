package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Small promises of the commands that a rider notices when they are broken. */
class FactsAndNamesTest {
    @TempDir
    Path folder = Path.of("");

    private Path ledger() {
        return folder.resolve("ledger.sqlite");
    }

    private Run run(String... command) {
        List<String> args = new ArrayList<>(List.of("--ledger", ledger().toString()));
        args.addAll(List.of(command));
        return Run.of(args.toArray(String[]::new));
    }

    private void ok(String... command) {
        Run r = run(command);
        assertEquals(0, r.code(), r.err());
    }

    @Test
    void aRemovalAfterTheInstantAskedForIsKnownToTheInstallationAfterIt() {
        ok("bike", "add", "Dunlin");
        ok("chain", "add", "Amber");
        ok("chain", "add", "Ochre");
        ok("install", "Amber", "Dunlin", "--on", "2026-01-01");
        ok("remove", "Amber", "--on", "2026-10-01");
        ok("install", "Ochre", "Dunlin", "--on", "2026-10-02", "--at", "2026-08-01");
    }

    @Test
    void takingBackATakingBackMakesNoTwoNamesThatDifferByCaseAlone() {
        ok("chain", "add", "Moss");
        ok("undo");
        ok("chain", "add", "moss");
        run("undo", "2");
        String chains = run("chain", "--json").out();
        assertFalse(chains.contains("\"Moss\"") && chains.contains("\"moss\""), chains);
    }

    @Test
    void aCommandThatIsRefusedMakesNoLedger() {
        assertEquals(64, run("tag", "last", "wet").code());
        assertFalse(Files.exists(ledger()));
    }

    @Test
    void aRefusedFileInAFolderWithAnExclamationMarkIsListed() throws IOException {
        Path wow = Files.createDirectories(folder.resolve("wow!"));
        Path file = Files.writeString(wow.resolve("a.fit"), "rubbish");
        Files.setLastModifiedTime(file, FileTime.from(Instant.parse("2026-10-01T00:00:00Z")));
        assertEquals(65, run("import", wow.toString()).code());
        assertTrue(run("refused").out().contains("a.fit"), run("refused").out());
    }

    @Test
    void aRefusalNamesNoEntryThatWasNeverWritten() {
        ok("bike", "add", "Natterjack");
        ok("chain", "add", "Ochre");
        ok("install", "Ochre", "Natterjack", "--on", "2026-09-01");
        Run refused = run("install", "Ochre", "Natterjack", "--on", "2026-10-08", "--at", "2026-08-01");
        assertEquals(64, refused.code());
        assertFalse(refused.err().contains("undo 5"), refused.err());
    }

    @Test
    void aTreatmentOnTheDayOfTheNoiseEndsIt() {
        ok("bike", "add", "Dunlin");
        ok("chain", "add", "Amber");
        ok("install", "Amber", "Dunlin", "--on", "2026-01-01");
        ok("remark", "Amber", "noisy", "--on", "2026-05-01");
        ok("treat", "Amber", "hot-wax", "--cleaning", "deep", "--on", "2026-05-01");
        assertFalse(run("due").out().contains("treat it now"), run("due").out());
    }

    @Test
    void aChainRetiredOnTheBikeIsSaidToBeStillThere() {
        ok("bike", "add", "Dunlin");
        ok("chain", "add", "Amber");
        ok("install", "Amber", "Dunlin", "--on", "2026-01-01");
        String said = run("remark", "Amber", "retired").out();
        assertTrue(said.contains("chainage remove Amber"), said);
    }

    @Test
    void anEmptyFileIsAnEmptyLedger() throws IOException {
        Files.createFile(ledger());
        ok("due");
    }

    @Test
    void noSentenceEndsInADashForADate() {
        ok("bike", "add", "Dunlin");
        ok("chain", "add", "Amber");
        ok("install", "Amber", "Dunlin", "--on", "2026-01-01");
        ok("measure", "Amber", "0.2%");
        String due = run("due").out().replace(System.lineSeparator(), " ");
        assertFalse(due.contains("about –"), due);
    }
}
