package chainage.cli;

import chainage.command.LiveNames;
import chainage.host.QuickStart;
import chainage.host.Terminal;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Map;

/** What runs in the background for a quick start: {@code make FOLDER PROGRAM}, and {@code practise FOLDER} for that. */
final class Practice {
    private static final String LEDGER = "LEDGER";
    private static final String FOLDER = "FOLDER";

    /** What a rider does on most days; the classes that these need go into the archive. */
    private static final List<List<String>> PRACTICE = List.of(
            List.of("--help"),
            List.of("demo", "--folder", FOLDER),
            List.of("--ledger", LEDGER, "import", FOLDER),
            List.of("--ledger", LEDGER, "import", FOLDER, "--json"),
            List.of("--ledger", LEDGER, "due"),
            List.of(LiveNames.COMMAND, LiveNames.CHAIN, LEDGER),
            List.of(LiveNames.COMMAND, LiveNames.RIDE, LEDGER),
            List.of("--ledger", LEDGER, "due", "--why"),
            List.of("--ledger", LEDGER, "due", "--json"),
            List.of("--ledger", LEDGER, "tag", "last", "muddy"),
            List.of("--ledger", LEDGER, "undo"),
            List.of("--ledger", LEDGER, "treat", "Moss", "hot-wax"),
            List.of("--ledger", LEDGER, "rides"),
            List.of("--ledger", LEDGER, "compare"),
            List.of("--ledger", LEDGER, "loss"),
            List.of("--ledger", LEDGER, "cost"),
            List.of("--ledger", LEDGER, "plan"),
            List.of("--ledger", LEDGER, "page", "-o", FOLDER + "/page.html"));

    private Practice() {}

    public static void main(String[] args) throws IOException, InterruptedException {
        if (args[0].equals("make")) {
            QuickStart.make(Path.of(args[1]), Path.of(args[2]), Practice.class);
        } else {
            practise(Path.of(args[1]));
        }
    }

    /** Runs the usual commands on the invented season, so that the virtual machine notes which classes they need. */
    private static void practise(Path folder) {
        PrintWriter nowhere = new PrintWriter(Writer.nullWriter());
        Path season = folder.resolve("season");
        // With a cache, since what is remembered has classes of its own.
        Map<String, String> environment = Map.of(
                "XDG_CACHE_HOME", season.resolve("cache").toAbsolutePath().toString());
        Terminal terminal = new Terminal(nowhere, nowhere, false, 0, environment, Clock.systemUTC());
        for (List<String> command : PRACTICE) {
            Main.run(
                    terminal,
                    command.stream()
                            .map(word -> word.replace(FOLDER, season.toString())
                                    .replace(
                                            LEDGER,
                                            season.resolve("ledger.sqlite").toString()))
                            .toArray(String[]::new));
        }
    }
}
