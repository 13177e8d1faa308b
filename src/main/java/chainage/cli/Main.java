package chainage.cli;

import chainage.bookkeeping.LogbookAppend;
import chainage.command.Chainage;
import chainage.command.Colour;
import chainage.command.CommandContext;
import chainage.command.Errors;
import chainage.command.LiveNames;
import chainage.command.Misunderstood;
import chainage.command.NumberConverters;
import chainage.command.Runner;
import chainage.host.Outlet;
import chainage.host.QuickStart;
import chainage.host.Terminal;
import chainage.typed.EarlierWords;
import chainage.typed.ExitCode;
import chainage.typed.TypedNumber;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.ZoneId;
import java.util.List;
import picocli.CommandLine;
import picocli.CommandLine.ParameterException;

/** Where the program starts. */
public final class Main {
    /** How command lines are read and run. */
    public static final Runner RUNNER = new Runner() {
        @Override
        public int run(Terminal terminal, String... args) {
            return Main.run(terminal, args);
        }

        @Override
        public CommandLine parser(CommandContext context, String... words) {
            return taught(new CommandLine(new Chainage(context)), words);
        }

        @Override
        public CommandContext.Beside beside(CommandContext context) {
            return new LogbookAppend(context);
        }

        @Override
        public String said(ParameterException e) {
            return Misunderstood.said(e);
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
    public static int run(Terminal terminal, String... args) {
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
        NumberConverters.teach(line);
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
        return Errors.say(terminal, json, Misunderstood.said(e), ExitCode.USAGE);
    }
}
