package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Tables that are none, or are huge, are refused in one line, whatever reads them. */
class HostileTablesTest {
    private static final int LARGE = 100 << 20;

    @TempDir
    Path folder;

    @Test
    void hugeAndBrokenOnesAreRefusedInOneLine() throws IOException {
        Path nothing = folder.resolve("nothing.csv");
        try (RandomAccessFile f = new RandomAccessFile(nothing.toFile(), "rw")) {
            f.setLength(LARGE);
        }
        Path rows = huge("rows.csv", "2026-03-01,Amber,waxed\n");
        Path line = huge("line.csv", "2026-03-01,Amber,waxed,");
        Path nul = folder.resolve("nul.csv");
        Files.writeString(nul, "date,chain\n2026-03-01,Am\0ber\n");
        Path open = folder.resolve("open.csv");
        Files.writeString(open, "date,chain\n2026-03-01,\"Amber\n" + "2026-03-02,Ochre\n".repeat(10_000));
        Path escape = folder.resolve("escape.csv");
        Files.writeString(escape, "date,chain\n2026-03-01,\u001b]0;x\u0007Amber\n");
        Path rides = Files.createDirectory(folder.resolve("rides"));
        String ledger = folder.resolve("ledger").toString();
        for (Path table : List.of(nothing, rows, line, nul, open, escape)) {
            refused(table, Run.of("--ledger", ledger, "logbook", "from", table.toString()));
            refused(table, Run.of("--ledger", ledger, "import", rides.toString(), "--table", table.toString()));
        }
    }

    private static void refused(Path table, Run run) {
        assertEquals(65, run.code(), table + "\n" + run.out() + run.err());
        assertEquals(1, run.err().lines().count(), run.err());
        assertTrue(run.err().contains(table + ": ") && run.err().contains("; "), run.err());
    }

    private Path huge(String name, String part) throws IOException {
        Path file = folder.resolve(name);
        try (BufferedWriter w = Files.newBufferedWriter(file)) {
            for (int i = 0; i < LARGE / part.length(); i++) {
                w.write(part);
            }
        }
        return file;
    }
}
