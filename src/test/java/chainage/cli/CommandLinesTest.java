package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.typed.ExitCode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Command lines at random, of the program's own words: each ends as the help says, none as a fault of ours. */
class CommandLinesTest {
    /** So many lines a ledger lives through. */
    private static final int LIVES = 60;

    @TempDir
    Path folder;

    @Test
    @Timeout(value = 20, unit = TimeUnit.MINUTES)
    void noLineEndsAsAFaultOfOurs() throws IOException {
        int lines = Integer.getInteger("lines", 1_000);
        long seed = Long.getLong("lines.seed", 1);
        Path sound = folder.resolve("sound.sqlite");
        Path ledger = folder.resolve("ledger.sqlite");
        SmallSeason.state(folder, sound);
        RandomLine random = new RandomLine(new Random(seed), folder);
        Map<Integer, Integer> codes = new TreeMap<>();
        for (int i = 0; i < lines; i++) {
            if (i % LIVES == 0) {
                for (String end : List.of("", "-wal", "-shm")) {
                    Files.deleteIfExists(Path.of(ledger + end));
                }
                Files.copy(sound, ledger);
            }
            List<String> line = random.next();
            List<String> words = new ArrayList<>(line);
            words.addAll(0, List.of("--ledger", ledger.toString()));
            Run run = Run.of(words.toArray(String[]::new));
            String title = "seed " + seed + ", line " + i + ": " + line + " → " + run;
            assertFalse(run.code() == ExitCode.BUG.code() || run.err().contains("\n\tat "), title);
            // A file that is no ledger may have been named; the one at hand stays one.
            if (run.code() == ExitCode.CONFIGURATION.code()) {
                assertEquals(0, Run.of("log", "--ledger", ledger.toString()).code(), title);
            }
            codes.merge(run.code(), 1, Integer::sum);
        }
        assertTrue(codes.getOrDefault(0, 0) > lines / 10, "few lines were understood: " + codes);
    }
}
