package chainage.cli;

import chainage.command.Action;
import chainage.command.CommandContext;
import chainage.host.Program;
import chainage.host.Resource;
import chainage.host.Terminal;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "demo",
        description = {
            "Import an invented season into a throwaway ledger and show what is due.",
            "Your own ledger is not touched."
        },
        footer = {"Example:", "  chainage demo"})
final class DemoCommand extends Action {
    /** The evening on which the season ends. */
    private static final String END = "2026-08-31T20:00Z";

    /** What was stated before the season, a command a line; not put beside the rides. */
    private static final String SETUP = "setup.txt";

    /** What came beside the rides: titles, notes, bikes. */
    private static final String TABLE = "rides.csv";

    /** What other riders' chains have shown. */
    private static final String OTHERS = "others";

    private static final String WEATHER = "weather/reports-2026.txt.gz";
    /** Near the season's rides, in open ocean. */
    private static final String STATION = "0.1,-30.2";

    private static final String SEASON = "/chainage/fixtures/season/";
    private static final Pattern WORD = Pattern.compile("\"([^\"]*)\"|(\\S+)");

    @Option(names = "--folder", paramLabel = "DIR", description = "where to put it (default: a new temporary folder)")
    @Nullable
    Path folder;

    @Override
    public boolean needsLedger() {
        return false;
    }

    @Override
    public Integer call() {
        try {
            return show();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private Integer show() throws IOException {
        Path place = folder == null
                ? Files.createTempDirectory("chainage-demo-")
                : Files.createDirectories(folder).toAbsolutePath();
        Path logbook = place.resolve("logbook.txt");
        Path ledger = place.resolve("ledger.sqlite");
        if (Files.exists(ledger)) {
            throw new CliError(
                    ExitCode.CANNOT_CREATE,
                    "\"" + ledger + "\" is there already",
                    "name an empty folder with --folder");
        }
        unpack(place);
        CommandContext context = context();
        for (String line : Resource.text(SEASON + SETUP)
                .lines()
                .filter(line -> !line.isBlank() && !line.startsWith("#"))
                .toList()) {
            int code = run(context, true, ledger, words(line));
            if (code != ExitCode.OK.code()) {
                return code;
            }
        }
        say(
                context,
                "An invented rider's season, three bikes, six chains. Importing, with the table that came beside the"
                        + " rides:");
        int code = run(
                context,
                false,
                ledger,
                List.of(
                        "import",
                        place.resolve("rides").toString(),
                        "--table",
                        place.resolve(TABLE).toString(),
                        "--quiet"));
        if (code != ExitCode.OK.code() && code != ExitCode.REFUSED.code()) {
            return code;
        }
        say(context, "What an airfield near by reported, every hour:");
        code = run(
                context,
                false,
                ledger,
                List.of("weather", "add", place.resolve(WEATHER).toString(), "--station", STATION, "--quiet"));
        if (code != ExitCode.OK.code()) {
            return code;
        }
        code = run(context, true, ledger, List.of("import", logbook.toString()));
        if (code != ExitCode.OK.code()) {
            return code;
        }
        say(context, "");
        say(
                context,
                "Then the logbook that the rider kept of chains, treatments, noises and readings (logbook.txt there:"
                        + " change a line, import it, and its fact changes), and the question: chainage due");
        say(context, "");
        code = run(context, false, ledger, context.json() ? List.of("due", "--json") : List.of("due"));
        if (!context.json()) {
            String again = Program.typed() + " --ledger " + ledger + " --at " + END + " --zone UTC";
            context.out().line();
            context.out()
                    .line("Try on it (nothing here is yours, so nothing can go wrong; delete " + place
                            + " when done):");
            context.out().whole("  alias demo='" + again + "'");
            context.out().whole("  demo due --why Moss");
            context.out().whole("  demo tag last muddy        # watch the next treatment come forward");
            context.out().whole("  demo tag last --withdraw");
            context.out().whole("  demo conditions 2026-04-19 # wet and gritty, and why");
            context.out().whole("  demo rides 2026-08-01..2026-08-31 --why");
            context.out().whole("  demo rides 2026-03-25 --why # whose bike the table alone tells");
            context.out().whole("  demo cost --why            # what a watt costs with each product");
            context.out().whole("  demo plan                  # one waxing session for two chains");
            context.out().line("What three club-mates' chains have shown lies beside the rides; brought in:");
            context.out().whole("  demo evidence add " + place.resolve(OTHERS) + "/*.jsonl --as club");
            context.out().whole("  demo compare               # which product lasts longer with you and with them");
            context.out().line("Then your own: chainage import FOLDER");
        }
        return code;
    }

    private static void say(CommandContext context, String words) {
        if (!context.json()) {
            context.out().line(words);
        }
    }

    private void unpack(Path to) throws IOException {
        for (String name : Resource.text(SEASON + "index.txt").lines().toList()) {
            if (name.isBlank() || name.equals(SETUP)) {
                continue;
            }
            Path file = to.resolve(name).normalize();
            Files.createDirectories(Objects.requireNonNull(file.getParent()));
            try (InputStream in = Resource.open(SEASON + name)) {
                Files.copy(in, file);
            }
            // Dated like the season, so that the broken file is not taken for one that is still being written.
            Files.setLastModifiedTime(file, FileTime.from(Instant.parse("2026-08-31T18:00:00Z")));
        }
    }

    /** One of our own commands on the throwaway ledger, on the season's last evening. */
    private int run(CommandContext context, boolean silent, Path ledger, List<String> command) {
        List<String> args = new ArrayList<>(List.of("--ledger", ledger.toString(), "--at", END, "--zone", "UTC"));
        args.addAll(command);
        Terminal t = context.terminal();
        StringWriter said = new StringWriter();
        Terminal inner = silent
                ? new Terminal(
                        new PrintWriter(said), new PrintWriter(said), false, t.columns(), t.environment(), t.clock())
                : context.json() && !command.contains("--json")
                        ? new Terminal(new PrintWriter(said), t.err(), false, t.columns(), t.environment(), t.clock())
                        : t;
        int code = root().runner().run(inner, args.toArray(String[]::new));
        if (silent && code != ExitCode.OK.code()) {
            t.err().print(said);
        }
        return code;
    }

    /** A line as it is typed, by words; quotes hold one together. */
    static List<String> words(String line) {
        List<String> words = new ArrayList<>();
        Matcher m = WORD.matcher(line);
        while (m.find()) {
            words.add(m.group(1) == null ? m.group(2) : m.group(1));
        }
        return words;
    }
}
