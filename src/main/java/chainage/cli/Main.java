package chainage.cli;

import chainage.host.Outlet;
import chainage.host.QuickStart;
import chainage.host.Terminal;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import picocli.CommandLine;
import picocli.CommandLine.MissingParameterException;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;

/** Where the program starts. */
public final class Main {
    /** How command lines are read and run. */
    static final Chainage.Runner RUNNER = new Chainage.Runner() {
        @Override
        public int run(Terminal terminal, String... args) {
            return Main.run(terminal, args);
        }

        @Override
        public CommandLine parser(Chainage program, String... words) {
            return taught(new CommandLine(program), words);
        }

        @Override
        public CommandContext.Beside beside(CommandContext context) {
            return new LogbookAppend(context);
        }

        @Override
        public String said(ParameterException e) {
            return Main.said(e);
        }
    };

    private Main() {}

    /** Runs the command line and exits with its code. */
    public static void main(String[] args) {
        Outlet outlet = new Outlet(new FileOutputStream(FileDescriptor.out));
        PrintWriter out = writer(outlet);
        PrintWriter err = writer(new FileOutputStream(FileDescriptor.err));
        Terminal terminal = new Terminal(
                out,
                err,
                Boolean.getBoolean("chainage.terminal"),
                Integer.getInteger("chainage.columns", 0),
                System.getenv(),
                Clock.system(ZoneId.systemDefault()));
        if (LiveNames.asked(args)) {
            System.exit(LiveNames.answer(terminal, args));
        }
        Chainage program = new Chainage(terminal, RUNNER);
        int code = run(program, args);
        out.flush();
        if (outlet.lost() != null && code != ExitCode.BUG.code()) {
            Errors.say(
                    terminal,
                    "the answer could not be written: " + outlet.lost() + "; check the disk and " + next(program));
            code = ExitCode.IO.code();
        }
        err.flush();
        QuickStart.renew(Practice.class);
        System.exit(code);
    }

    private static PrintWriter writer(OutputStream stream) {
        return new PrintWriter(new OutputStreamWriter(stream, StandardCharsets.UTF_8), false);
    }

    /** Runs one command line against a terminal, without exiting; what tests call. */
    static int run(Terminal terminal, String... args) {
        return LiveNames.asked(args) ? LiveNames.answer(terminal, args) : run(new Chainage(terminal, RUNNER), args);
    }

    /** What to do when the answer was lost; to state again what is kept would state it twice. */
    private static String next(Chainage program) {
        String done = program.done();
        return done.isEmpty() ? "try again" : "do not repeat the command: " + done + " all the same";
    }

    /** A parser that knows the command, and reads words as all do. */
    private static CommandLine taught(CommandLine line, String... words) {
        Commands.addTo(line, words);
        TypedNumber.teach(line);
        line.setAbbreviatedOptionsAllowed(false);
        // A file may be called @o, and "import *" names it: what the file o holds are no options.
        line.setExpandAtFiles(false);
        return line;
    }

    private static int run(Chainage program, String... words) {
        String[] typed = TypedNumber.joined(List.of(words));
        Terminal terminal = program.terminal();
        boolean quiet = List.of(typed).contains("--quiet");
        CommandLine line = new CommandLine(program);
        String[] today = EarlierWords.today(
                typed,
                Commands.firstWord(line.getCommandSpec(), typed),
                quiet ? hint -> {} : hint -> Errors.say(terminal, hint));
        String[] args = Commands.plain(line, today).toArray(String[]::new);
        taught(line, args);
        line.setOut(terminal.out());
        line.setErr(terminal.err());
        Chainage.describe(line, terminal.columns(), Colour.on(args, terminal));
        line.getCommandSpec().exitCodeOnInvalidInput(ExitCode.USAGE.code());
        line.setExitCodeExceptionMapper(e -> ExitCode.BUG.code());
        // Where the words are not understood, that option may not have been reached.
        boolean json = List.of(args).contains("--json");
        line.setParameterExceptionHandler((e, rawArgs) -> usage(terminal, json, e));
        line.setExecutionExceptionHandler((e, commandLine, parsed) -> Errors.tell(terminal, json, e, program.done()));
        int code = execute(line, terminal, json, args);
        terminal.out().flush();
        terminal.err().flush();
        return code;
    }

    private static int execute(CommandLine line, Terminal terminal, boolean json, String... args) {
        try {
            return line.execute(args);
        } catch (OutOfMemoryError e) {
            // What was being made is garbage by now, so there is room for a sentence.
            return Errors.say(
                    terminal,
                    json,
                    "there is not enough memory for this; give it more: JAVA_TOOL_OPTIONS=-Xmx2g chainage …",
                    ExitCode.IO);
        }
    }

    private static int usage(Terminal terminal, boolean json, ParameterException e) {
        return Errors.say(terminal, json, said(e), ExitCode.USAGE);
    }

    /** What was typed wrong, and where to look. */
    private static String said(ParameterException e) {
        CommandSpec command = e.getCommandLine().getCommandSpec();
        String help = "see " + command.qualifiedName() + " --help";
        if (e instanceof UnmatchedArgumentException u) {
            return unmatched(command, u.getUnmatched(), help);
        }
        String what = String.valueOf(e.getMessage())
                .replace('\n', ' ')
                .replaceFirst("^Error: |^Invalid value for (option '(--[a-z-]+)'|[^:]*)[^:]*: ", "$2 ")
                .replaceFirst(" is not a(?: double| float)$", " is no number")
                .replaceFirst(" is not an? (?:int|integer|long)$", " is no whole number")
                .strip();
        String value = String.valueOf(e.getValue());
        boolean example = e instanceof MissingParameterException
                || (e.getArgSpec() instanceof PositionalParamSpec && !value.equals("null"));
        return what + (what.endsWith("?") ? "" : "; " + (example ? right(command, value, help) : help));
    }

    /** How a command is written: where a date goes, else its first example. */
    private static String right(CommandSpec command, String word, String help) {
        if (TypedDate.isDate(word) && command.optionsMap().containsKey("--on")) {
            return "a date stands behind --on: --on " + word;
        }
        return Arrays.stream(command.usageMessage().footer())
                .filter(l -> l.startsWith("  chainage "))
                .map(l -> "write it such as "
                        + l.strip().replaceFirst(" {2,}\\(.*", "").replace("%%", "%"))
                .findFirst()
                .orElse(help);
    }

    /** What nothing is known of, and which of the words that may stand there it is like. */
    private static String unmatched(CommandSpec command, List<String> words, String help) {
        String first = words.get(0);
        boolean option = first.startsWith("-");
        String name = option ? first.replaceFirst("=.*", "") : first;
        Set<String> known =
                option ? command.optionsMap().keySet() : command.subcommands().keySet();
        String what = option || known.isEmpty()
                ? "\"" + String.join(" ", words) + "\" is not understood here"
                : "there is no command \"" + command.qualifiedName() + " " + first + "\"";
        List<String> meant = (option
                        ? options(command, name)
                        : Guesses.of(command.parent() == null ? Guesses.Of.COMMAND : Guesses.Of.BELOW, name))
                .stream().map(m -> m.replace("*", command.name())).toList();
        if (!option && known.isEmpty()) {
            return what + "; " + right(command, first, help);
        }
        return what + "; " + (meant.isEmpty() ? Alike.hint(name, known, help) : Alike.question(meant));
    }

    /** What is meant by an option that the command does not have: another of its own, or a range where it takes rides. */
    private static List<String> options(CommandSpec command, String name) {
        List<String> own = Guesses.of(Guesses.Of.OPTION, name).stream()
                .filter(command.optionsMap()::containsKey)
                .toList();
        boolean rides = command.positionalParameters().stream()
                .anyMatch(p -> p.paramLabel().startsWith("RIDE"));
        return own.isEmpty() && rides ? Guesses.of(Guesses.Of.RANGE, name) : own;
    }
}
