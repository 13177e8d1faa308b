package chainage.command;

import chainage.host.NotMadeException;
import chainage.host.Terminal;
import chainage.quantity.PlainText;
import chainage.render.Json;
import chainage.store.file.LedgerException;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.NoSuchFileException;

/** Where every error becomes a line and an exit code. */
public final class Errors {
    private Errors() {}

    /**
     * What is to be told of something thrown.
     *
     * @param message in one line
     */
    public record Told(String message, ExitCode code) {}

    /**
     * What is to be told of it.
     *
     * @param done what was changed all the same, such as "entry 5 is kept"; empty when nothing was
     */
    public static Told told(Exception thrown, String done) {
        Exception e = thrown instanceof UncheckedIOException u && u.getCause() != null ? u.getCause() : thrown;
        if (e instanceof CliError c) {
            return new Told(String.valueOf(c.getMessage()), c.code());
        } else if (e instanceof NotMadeException n) {
            return new Told(String.valueOf(n.getMessage()), ExitCode.CANNOT_CREATE);
        } else if (e instanceof LedgerException l) {
            return new Told(l.what() + "; " + l.hint(), code(l));
        } else if (e instanceof NoSuchFileException n) {
            return new Told("\"" + n.getFile() + "\" does not exist; check the path", ExitCode.NO_SUCH_FILE);
        } else if (e instanceof AccessDeniedException a) {
            return new Told("\"" + a.getFile() + "\" may not be read; check its permissions", ExitCode.IO);
        } else if (e instanceof IOException) {
            return new Told(e.getMessage() + "; check the disk and try again", ExitCode.IO);
        }
        return new Told(
                "internal error, " + e + "; " + (done.isEmpty() ? "" : done + " all the same; ")
                        + "please report it with what follows",
                ExitCode.BUG);
    }

    /**
     * Says what was thrown, and answers the exit code.
     *
     * @param done what was changed all the same, such as "entry 5 is kept"; empty when nothing was
     */
    public static int tell(Terminal terminal, boolean json, Exception thrown, String done) {
        Told told = told(thrown, done);
        say(terminal, json, told.message(), told.code());
        if (told.code() == ExitCode.BUG) {
            thrown.printStackTrace(terminal.err());
        }
        return told.code().code();
    }

    private static ExitCode code(LedgerException e) {
        return switch (e.kind()) {
            case BUSY -> ExitCode.BUSY;
            case NEWER, CORRUPT, NOT_A_LEDGER, SECOND_NAME -> ExitCode.CONFIGURATION;
            case READ_ONLY -> ExitCode.CANNOT_CREATE;
            default -> ExitCode.IO;
        };
    }

    /** Says what went wrong: a line, or to a script the one object that it reads. */
    public static int say(Terminal terminal, boolean json, String message, ExitCode code) {
        if (json) {
            terminal.out()
                    .println(new Json()
                            .put("error", PlainText.marked(message))
                            .put("exit_code", code.code())
                            .text());
        } else {
            say(terminal, message);
        }
        return code.code();
    }

    /** Says one line. */
    public static void say(Terminal terminal, String message) {
        terminal.err().println("chainage: " + PlainText.marked(message));
    }
}
