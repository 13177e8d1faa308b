package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
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

    /** Runs a statement without the guard of its table, as a bad disk goes past it. */
    private void damage(String table, String statement) throws SQLException {
        String guard = table + "_is_not_changed";
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + ledger());
                Statement s = connection.createStatement()) {
            String made;
            try (ResultSet row = s.executeQuery("select sql from sqlite_schema where name = '" + guard + "'")) {
                made = row.getString(1);
            }
            s.executeUpdate("drop trigger " + guard);
            assertEquals(1, s.executeUpdate(statement));
            s.executeUpdate(made);
        }
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
}
