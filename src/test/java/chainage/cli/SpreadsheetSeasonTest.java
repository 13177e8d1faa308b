package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A season that was typed into a spreadsheet alone is the season that was typed at the terminal. */
class SpreadsheetSeasonTest {
    private static final Path SEASON = Path.of("fixtures/season");
    private static final Instant NOW = Instant.parse("2026-09-01T12:00:00Z");
    private static final Pattern WORD = Pattern.compile("\"([^\"]*)\"|(\\S+)");

    @TempDir
    Path folder;

    private String run(String ledger, String... words) {
        List<String> args =
                new ArrayList<>(List.of("--ledger", folder.resolve(ledger).toString()));
        args.addAll(List.of(words));
        Run run = Run.at(NOW, args.toArray(String[]::new));
        // One file of the season's rides is broken on purpose.
        assertEquals(
                words[0].equals("import") ? 65 : 0, run.code(), String.join(" ", words) + "\n" + run.out() + run.err());
        return run.out();
    }

    @Test
    void bothGiveTheSameAnswers() throws IOException {
        run("typed", "import", SEASON.resolve("rides").toString());
        for (String line : Files.readAllLines(Path.of("src/test/resources/chainage/table/season-typed.txt"))) {
            if (!line.isBlank() && !line.startsWith("#")) {
                List<String> words = new ArrayList<>();
                Matcher m = WORD.matcher(line);
                while (m.find()) {
                    words.add(m.group(1) == null ? m.group(2) : m.group(1));
                }
                run("typed", words.toArray(String[]::new));
            }
        }

        Path logbook = folder.resolve("season.txt");
        run("table", "logbook", "from", "src/test/resources/chainage/table/season.csv", "-o", logbook.toString());
        run("table", "import", SEASON.resolve("rides").toString(), logbook.toString());

        for (List<String> question :
                List.of(List.of("due", "--json"), List.of("rides", "--csv"), List.of("loss", "--json"))) {
            String[] words = question.toArray(String[]::new);
            assertEquals(run("typed", words), run("table", words), question.toString());
        }
    }
}
