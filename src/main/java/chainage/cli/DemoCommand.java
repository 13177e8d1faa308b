package chainage.cli;

import chainage.command.Action;
import chainage.command.CommandContext;
import chainage.host.Program;
import chainage.host.Terminal;
import chainage.intake.InventedSeason;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
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
        InventedSeason.unpack(place);
        CommandContext context = context();
        for (List<String> command : InventedSeason.setUp()) {
            int code = run(context, true, ledger, command);
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
                        place.resolve(InventedSeason.TABLE).toString(),
                        "--quiet"));
        if (code != ExitCode.OK.code() && code != ExitCode.REFUSED.code()) {
            return code;
        }
        say(context, "What an airfield near by reported, every hour:");
        code = run(
                context,
                false,
                ledger,
                List.of(
                        "weather",
                        "add",
                        place.resolve(InventedSeason.WEATHER).toString(),
                        "--station",
                        InventedSeason.STATION,
                        "--quiet"));
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
            for (String line : InventedSeason.tour(again, place)) {
                if (line.startsWith(" ")) {
                    context.out().whole(line);
                } else {
                    context.out().line(line);
                }
            }
        }
        return code;
    }

    private static void say(CommandContext context, String words) {
        if (!context.json()) {
            context.out().line(words);
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
        int code = context().runner().run(inner, args.toArray(String[]::new));
        if (silent && code != ExitCode.OK.code()) {
            t.err().print(said);
        }
        return code;
    }
}
