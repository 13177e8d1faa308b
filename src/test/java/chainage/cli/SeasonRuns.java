package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import chainage.intake.InventedSeason;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/**
 * The demo's season, told in several ways to ledgers of their own.
 *
 * @param folder of the ledgers
 */
record SeasonRuns(Path folder) {
    static final Path SEASON = Path.of("fixtures/season");
    private static final Instant NOW = Instant.parse("2026-09-01T12:00:00Z");

    /** Runs a command on a ledger; only an import that meets the season's broken file may be refused in part. */
    String run(String ledger, List<String> words) {
        List<String> args =
                new ArrayList<>(List.of("--ledger", folder.resolve(ledger).toString(), "--zone", "UTC"));
        args.addAll(words);
        Run run = Run.at(NOW, args.toArray(String[]::new));
        boolean broken = words.get(0).equals("import")
                && words.contains(SEASON.resolve("rides").toString());
        assertEquals(broken ? 65 : 0, run.code(), String.join(" ", words) + "\n" + run.out() + run.err());
        return run.out();
    }

    String run(String ledger, String... words) {
        return run(ledger, List.of(words));
    }

    /** Imports the rides, then types what stands in a file, a command a line. */
    void type(String ledger, Path commands) throws IOException {
        run(ledger, "import", SEASON.resolve("rides").toString());
        for (String line : Files.readAllLines(commands)) {
            if (!line.isBlank() && !line.startsWith("#")) {
                run(ledger, InventedSeason.words(line));
            }
        }
    }
}
