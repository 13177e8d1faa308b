package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.store.BentLedger;
import chainage.store.LedgerFile;
import chainage.typed.ExitCode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A figure in the ledger file that turns into another: what is damaged is left out and said, and comes back. */
class DamagedLedgerTest {
    private static final String RIDES = "fixtures/season/rides/old-computer";

    @TempDir
    Path dir = Path.of("");

    private Run run(String... command) {
        List<String> args = new ArrayList<>(List.of("--ledger", ledger().toString()));
        args.addAll(List.of(command));
        return Run.of(args.toArray(String[]::new));
    }

    private Path ledger() {
        return dir.resolve("l.sqlite");
    }

    private void damage(String table, String statement) throws SQLException {
        BentLedger.damage(ledger(), table, statement);
    }

    private void setUp() {
        assertEquals(0, run("import", RIDES).code());
        assertEquals(0, run("bike", "add", "Dunlin").code());
        assertEquals(0, run("chain", "add", "Amber").code());
        assertEquals(0, run("install", "Amber", "Dunlin", "--on", "2026-01-01").code());
        assertEquals(0, run("treat", "Amber", "wet-lube", "--on", "2026-01-01").code());
    }

    @Test
    void aDamagedRideIsLeftOutAndSaidAndItsFileBringsItBack() throws IOException, SQLException {
        setUp();
        String rides = run("rides", "--json").out();
        damage("ride", "update ride set metres = metres + 65536 where number = 1");

        Run due = run("due", "--json");
        assertEquals(0, due.code(), due.err());
        assertTrue(due.err().contains("was changed on the disk; what to do: chainage check"), due.err());
        assertNotEquals(rides, run("rides", "--json").out());
        Run check = run("check");
        assertEquals(ExitCode.REFUSED.code(), check.code());
        assertTrue(
                check.out()
                        .replaceAll("\\s+", " ")
                        .contains(
                                "was changed on the disk; read the ride files once more: chainage import --again FOLDER"),
                check.out());

        // An import that passes over what it knows brings nothing back.
        run("import", RIDES);
        assertEquals(ExitCode.REFUSED.code(), run("check").code());
        Run again = run("import", "--again", RIDES);
        assertEquals(0, again.code(), again.err());
        assertEquals("12 files: 12 known.", again.out().lines().findFirst().orElse(""));
        assertEquals(rides, run("rides", "--json").out());
        assertEquals(0, run("check").code(), run("check").out());
    }

    @Test
    void aDamagedFactIsLeftOutAndSaidAndStatedAnew() throws IOException, SQLException {
        setUp();
        damage("entry", "update entry set payload = replace(payload, '2026-01', '2026-03') where kind = 'treated'");
        Run due = run("due", "--json");
        assertEquals(0, due.code());
        assertTrue(due.err().contains("is left out: entry "), due.err());
        assertTrue(due.out().contains("\"treated_at\" : null"), due.out());
        Run check = run("check");
        assertTrue(
                check.out()
                        .replaceAll("\\s+", " ")
                        .contains("put a copy back (chainage restore COPY), or enter it again"),
                check.out());
        assertEquals(0, run("treat", "Amber", "wet-lube", "--on", "2026-01-01").code());
        assertTrue(run("due", "--json").out().contains("\"treated_at\" : \"2026-01-01"));
    }

    /** An import reads the facts several times, and says once what it had to leave out. */
    @Test
    void anImportSaysOnceWhatIsDamaged() throws SQLException {
        setUp();
        damage("entry", "update entry set payload = replace(payload, '2026-01', '2026-03') where kind = 'treated'");
        assertEquals(2, run("import", RIDES).err().split("is left out: entry |; entry ", -1).length);
    }

    /** Nobody writes so many lines for facts that may be missing; all others are written. */
    @Test
    void aNumberFarFromTheOthersIsToldAndTheRestExported() throws IOException, SQLException {
        setUp();
        Path sound = dir.resolve("sound.jsonl");
        assertEquals(0, run("export", "-o", sound.toString()).code());
        damage(
                "entry",
                "update entry set number = 253402300800000,"
                        + " sum = row_sum(253402300800000, command, recorded, kind, payload)"
                        + " where number = (select max(number) from entry)");
        Path file = dir.resolve("e.jsonl");
        Run export = run("export", "-o", file.toString());
        assertEquals(0, export.code(), export.err());
        assertTrue(export.err().contains("entry 253402300800000 has a number far from the others'"), export.err());
        assertEquals(entries(sound) - 1, entries(file));
    }

    private static long entries(Path export) throws IOException {
        return Files.readAllLines(export).stream()
                .filter(l -> l.startsWith("{\"entry\""))
                .count();
    }

    /** Whoever exports a damaged ledger is told, and what the export says of rides is sound. */
    @Test
    void anExportLeavesADamagedRideOut() throws IOException, SQLException {
        setUp();
        damage("ride", "update ride set metres = metres + 65536 where number = 1");
        Run export = run("export", "-o", dir.resolve("e.jsonl").toString());
        assertEquals(0, export.code(), export.err());
        assertTrue(export.err().contains("was changed on the disk"), export.err());
        Run whole = Run.of(
                "--ledger",
                dir.resolve("other.sqlite").toString(),
                "import",
                dir.resolve("e.jsonl").toString());
        assertEquals(0, whole.code(), whole.err());
    }

    private static final String LATER =
            "update entry set payload = replace(payload, '2026-01', '2026-03') where kind = 'treated'";

    /** Nothing warns any more, all other facts are what they were, and of the lost one the log keeps what was left. */
    @Test
    void whatIsDamagedIsTakenOutAndTheLedgerAsItWasIsKept() throws IOException, SQLException {
        setUp();
        String sound = run("log").out();
        damage("entry", LATER);
        byte[] damaged = Files.readAllBytes(ledger());
        Run mend = run("check", "--mend");
        assertEquals(0, mend.code(), mend.toString());
        assertTrue(mend.out().contains("taken out: entry "), mend.out());
        Path kept = dir.resolve("l.sqlite.before-mend");
        assertTrue(mend.out().contains(kept.toString()), mend.out());
        assertArrayEquals(damaged, Files.readAllBytes(kept));

        assertEquals("", run("due").err());
        assertEquals(0, run("check").code());
        List<String> before = sound.lines().toList();
        List<String> after = run("log").out().lines().toList();
        List<String> other = after.stream().filter(l -> !before.contains(l)).toList();
        assertTrue(
                String.join(" ", other)
                        .replaceAll("\\s+", " ")
                        .contains("lost to a damaged disk; what was left: treated {\"chain\":\"Amber\""),
                other.toString());
        assertTrue(mend.out().contains("2026-03-01"), mend.out());
        assertEquals(ExitCode.USAGE.code(), run("undo", number(after)).code());
        assertEquals(0, run("treat", "Amber", "wet-lube", "--on", "2026-01-01").code());
        assertEquals(0, run("check").code());
        assertTrue(run("due", "--json").out().contains("\"treated_at\" : \"2026-01-01"));

        // Again, and under another name.
        damage("ride", "update ride set metres = metres + 65536 where number = 1");
        assertEquals(0, run("check", "--mend").code());
        assertArrayEquals(damaged, Files.readAllBytes(kept));
        assertTrue(Files.exists(dir.resolve("l.sqlite.before-mend.2")));
        Run again = run("import", "--again", RIDES);
        assertEquals(0, again.code(), again.err());
    }

    private static String number(List<String> log) {
        return log.stream()
                .filter(l -> l.contains("lost to"))
                .map(l -> l.strip().split(" ", 2)[0])
                .findFirst()
                .orElse("");
    }

    @Test
    void aRideThatIsTakenOutComesBackFromItsFile() throws SQLException {
        setUp();
        String rides = run("rides", "--json").out();
        damage("ride", "update ride set metres = metres + 65536 where number = 1");
        assertEquals(0, run("check", "--mend").code());
        assertNotEquals(rides, run("rides", "--json").out());
        assertEquals(0, run("import", "--again", RIDES).code());
        assertEquals(rides, run("rides", "--json").out());
    }

    /** A verdict on a file that is damaged takes no ride with it. */
    @Test
    void soundRidesStayWhateverElseIsDamaged() throws SQLException {
        setUp();
        String rides = run("rides", "--json").out();
        damage("content", "update content set reason = 'x' where id = 1");
        damage("source", "update source set size = size + 1 where path = (select min(path) from source)");
        assertEquals(0, run("check", "--mend").code());
        assertEquals(rides, run("rides", "--json").out());
    }

    /** Nothing says any more which lines state which facts; what stands twice then is one command to take back. */
    @Test
    void aLogbookWhoseReadingIsLostIsReadAsNew() throws IOException, SQLException {
        setUp();
        Path logbook =
                Files.writeString(dir.resolve("season.txt"), "chainage logbook\n2026-03-02 remark Amber noisy\n");
        Files.setLastModifiedTime(logbook, FileTime.from(Instant.parse("2026-04-01T00:00:00Z")));
        assertEquals(0, run("import", logbook.toString()).code());
        String due = run("due", "--json").out();
        damage("entry", "update entry set payload = replace(payload, 'season', 'reason') where kind = 'logbook-read'");
        Run mend = run("check", "--mend");
        assertTrue(mend.out().replaceAll("\\s+", " ").contains("the logbook is read as if new"), mend.out());
        Run again = run("import", logbook.toString());
        String number = again.out().replaceAll("(?s).*to take it back: chainage undo (\\d+).*", "$1");
        assertEquals(0, run("undo", number).code(), again.out());
        assertEquals(0, run("import", logbook.toString()).code());
        assertEquals(due, run("due", "--json").out());
    }

    @Test
    void aFactThatIsMissingIsNamedInItsPlace() throws SQLException {
        setUp();
        damage("entry", "delete from entry where kind = 'chain-described'");
        assertEquals(ExitCode.REFUSED.code(), run("check").code());
        run("check", "--mend");
        assertEquals("", run("log").err());
        assertTrue(run("log").out().contains("lost to a damaged disk"));
        assertEquals(0, run("chain", "add", "Amber").code());
        assertEquals(0, run("check").code());
    }

    /** Once it refused every fact, an undo among them, as an internal error. */
    @Test
    void aCountThatIsDamagedIsNamedAndMended() throws SQLException {
        setUp();
        String log = run("log").out();
        damage("extent", "update extent set entries = 2");
        Run check = run("check");
        assertEquals(ExitCode.REFUSED.code(), check.code());
        assertTrue(check.out().contains("its count of facts is 2, and there are "), check.out());
        assertEquals(0, run("check", "--mend").code());
        assertEquals(log, run("log").out());
        damage("extent", "update extent set entries = 2");
        assertEquals(0, run("undo").code());
        assertEquals(0, run("check").code());
    }

    /** Where the file itself refuses a fact, that is no fault of ours, and there is a way out. */
    @Test
    void whatADamagedFileRefusesIsSaidSo() throws SQLException {
        setUp();
        damage("entry", "delete from entry where kind = 'chain-described'");
        damage("extent", "update extent set entries = 1");
        Run refused = run("undo");
        assertEquals(ExitCode.CONFIGURATION.code(), refused.code(), refused.toString());
        assertTrue(refused.err().contains("so that nothing can be added: "), refused.err());
        assertTrue(refused.err().contains("chainage check"), refused.err());
        run("check", "--mend");
        assertEquals(0, run("undo").code());
    }

    @Test
    void aSoundLedgerIsLeftAsItIs() throws IOException {
        setUp();
        byte[] before = Files.readAllBytes(ledger());
        Run mend = run("check", "--mend");
        assertEquals(run("check").out(), mend.out());
        assertArrayEquals(before, Files.readAllBytes(ledger()));
        assertTrue(Files.notExists(dir.resolve("l.sqlite.before-mend")));
    }

    @Test
    void aLedgerInUseIsNotMended() throws IOException, SQLException {
        setUp();
        damage("entry", LATER);
        try (LedgerFile other = LedgerFile.open(ledger())) {
            Run mend = run("check", "--mend");
            assertEquals(ExitCode.BUSY.code(), mend.code(), mend.toString());
            assertTrue(other.stated().size() > 3);
        }
        assertEquals(0, run("check", "--mend").code());
    }

    /** One bit of each column of each table: whatever it was, afterwards nothing is damaged, and facts go on. */
    @Test
    void whateverIsTurnedCanBeMended() throws IOException, SQLException {
        Path sound = dir.resolve("sound.sqlite");
        SmallSeason.state(dir, sound);
        Random random = new Random(11);
        int turned = 0;
        for (BentLedger.Column column : BentLedger.columns(sound)) {
            Files.copy(sound, ledger(), StandardCopyOption.REPLACE_EXISTING);
            String what = BentLedger.rot(ledger(), column, random, random.nextDouble());
            if (what == null || run("check").code() == 0) {
                continue;
            }
            turned++;
            Run mend = run("check", "--mend");
            assertTrue(mend.out().contains("taken out: "), what + ": " + mend);
            Run log = run("log");
            assertEquals("", log.err(), what);
            Run kept = run("undo");
            assertEquals(0, kept.code(), what + ": " + kept);
            Files.delete(dir.resolve("l.sqlite.before-mend"));
        }
        assertTrue(turned > 40, turned + " turned");
    }
}
