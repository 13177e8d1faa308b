package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A season that was typed into a spreadsheet alone is the season that was typed at the terminal. */
class SpreadsheetSeasonTest {
    @TempDir
    Path folder;

    @Test
    void bothGiveTheSameAnswers() throws IOException {
        SeasonRuns runs = new SeasonRuns(folder);
        runs.type("typed", Path.of("src/test/resources/chainage/table/season-typed.txt"));

        Path logbook = folder.resolve("season.txt");
        runs.run("table", "logbook", "from", "src/test/resources/chainage/table/season.csv", "-o", logbook.toString());
        runs.run("table", "import", SeasonRuns.SEASON.resolve("rides").toString(), logbook.toString());

        for (List<String> question :
                List.of(List.of("due", "--json"), List.of("rides", "--csv"), List.of("loss", "--json"))) {
            assertEquals(runs.run("typed", question), runs.run("table", question), question.toString());
        }
    }
}
