package chainage.cli;

import chainage.host.NotMadeException;
import chainage.host.QuickStart;
import chainage.host.Terminal;
import chainage.quantity.PlainText;
import chainage.store.LedgerException;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.NoSuchFileException;
import java.time.Clock;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Model.UsageMessageSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;

/** Where the program starts, and where every error becomes a line and an exit code. */
public final class Main {
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
        int code = run(terminal, args);
        out.flush();
        if (outlet.lost() != null && code != ExitCode.BUG.code()) {
            say(terminal, "the answer could not be written: " + outlet.lost() + "; check the disk and try again");
            code = ExitCode.IO.code();
        }
        err.flush();
        QuickStart.renew(Practice.class);
        System.exit(code);
    }

    /** Remembers a failure to write, which PrintWriter swallows. A closed pipe downstream is no error of ours. */
    private static final class Outlet extends FilterOutputStream {
        private @Nullable String lost;

        Outlet(OutputStream out) {
            super(out);
        }

        @Nullable
        String lost() {
            return lost;
        }

        @Override
        public void write(byte[] bytes, int from, int length) throws IOException {
            try {
                out.write(bytes, from, length);
            } catch (IOException e) {
                String why = String.valueOf(e.getMessage());
                if (!why.contains("Broken pipe")) {
                    lost = why;
                }
                throw e;
            }
        }
    }

    private static PrintWriter writer(OutputStream stream) {
        return new PrintWriter(new OutputStreamWriter(stream, StandardCharsets.UTF_8), false);
    }

    /** Runs one command line against a terminal, without exiting; what tests call. */
    static int run(Terminal terminal, String... args) {
        CommandLine line = new CommandLine(new Chainage(terminal));
        Commands.addTo(line, args);
        line.setOut(terminal.out());
        line.setErr(terminal.err());
        describe(line);
        line.setAbbreviatedOptionsAllowed(false);
        // A file may be called @o, and "import *" names it: what the file o holds are no options.
        line.setExpandAtFiles(false);
        line.getCommandSpec().exitCodeOnInvalidInput(ExitCode.USAGE.code());
        line.setExitCodeExceptionMapper(e -> ExitCode.BUG.code());
        line.setParameterExceptionHandler((e, rawArgs) -> usage(terminal, e));
        line.setExecutionExceptionHandler((e, commandLine, parsed) -> error(terminal, e));
        int code = line.execute(args);
        terminal.out().flush();
        terminal.err().flush();
        return code;
    }

    /** How the help looks, and what the program says of itself. */
    static void describe(CommandLine line) {
        line.setColorScheme(CommandLine.Help.defaultColorScheme(Ansi.OFF));
        line.setUsageHelpWidth(80);
        UsageMessageSpec root = line.getCommandSpec().usageMessage();
        root.description(
                "Which chain is nearest its limit, when to treat it, when to replace it: from your own ride files, your"
                        + " own gauge, and the road under each ride.");
        root.exitCodeListHeading("%nExit codes:%n");
        Map<String, String> codes = new LinkedHashMap<>();
        for (ExitCode c : ExitCode.values()) {
            codes.put(Integer.toString(c.code()), c.meaning());
        }
        root.exitCodeList(codes);
        root.footer(
                "Examples:",
                "  chainage demo",
                "  chainage import ~/exports",
                "  chainage due",
                "  chainage tag last muddy",
                "",
                "chainage COMMAND --help says more of each.");
    }

    private static int usage(Terminal terminal, ParameterException e) {
        String command = e.getCommandLine().getCommandSpec().qualifiedName();
        String what = e instanceof UnmatchedArgumentException u
                ? "\"" + String.join(" ", u.getUnmatched()) + "\" is not understood here"
                : String.valueOf(e.getMessage()).replace('\n', ' ').replaceFirst("^Error: ", "");
        say(terminal, what + "; see " + command + " --help");
        return ExitCode.USAGE.code();
    }

    private static int error(Terminal terminal, Exception thrown) {
        Exception e = thrown instanceof UncheckedIOException u && u.getCause() != null ? u.getCause() : thrown;
        if (e instanceof CliError c) {
            say(terminal, String.valueOf(c.getMessage()));
            return c.code().code();
        }
        if (e instanceof NotMadeException n) {
            say(terminal, String.valueOf(n.getMessage()));
            return ExitCode.CANNOT_CREATE.code();
        }
        if (e instanceof LedgerException l) {
            say(terminal, l.what() + "; " + l.mend());
            return code(l).code();
        }
        if (e instanceof NoSuchFileException n) {
            say(terminal, "\"" + n.getFile() + "\" does not exist; check the path");
            return ExitCode.NO_SUCH_FILE.code();
        }
        if (e instanceof AccessDeniedException a) {
            say(terminal, "\"" + a.getFile() + "\" may not be read; check its permissions");
            return ExitCode.IO.code();
        }
        if (e instanceof IOException) {
            say(terminal, e.getMessage() + "; check the disk and try again");
            return ExitCode.IO.code();
        }
        say(terminal, "a mistake of ours, " + e + "; please report it with what follows");
        e.printStackTrace(terminal.err());
        return ExitCode.BUG.code();
    }

    private static ExitCode code(LedgerException e) {
        return switch (e.kind()) {
            case BUSY -> ExitCode.BUSY;
            case NEWER, CORRUPT, NOT_A_LEDGER -> ExitCode.CONFIGURATION;
            case READ_ONLY -> ExitCode.CANNOT_CREATE;
            default -> ExitCode.IO;
        };
    }

    private static void say(Terminal terminal, String message) {
        terminal.err().println("chainage: " + PlainText.marked(message));
    }
}
