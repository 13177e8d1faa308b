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
     * Says what was thrown, and answers the exit code.
     *
     * @param done what was changed all the same, such as "entry 5 is kept"; empty when nothing was
     */
    public static int tell(Terminal terminal, boolean json, Exception thrown, String done) {
        Exception e = thrown instanceof UncheckedIOException u && u.getCause() != null ? u.getCause() : thrown;
        if (e instanceof CliError c) {
            return say(terminal, json, String.valueOf(c.getMessage()), c.code());
        }
        if (e instanceof NotMadeException n) {
            return say(terminal, json, String.valueOf(n.getMessage()), ExitCode.CANNOT_CREATE);
        }
        if (e instanceof LedgerException l) {
            return say(terminal, json, l.what() + "; " + l.hint(), code(l));
        }
        if (e instanceof NoSuchFileException n) {
            return say(terminal, json, "\"" + n.getFile() + "\" does not exist; check the path", ExitCode.NO_SUCH_FILE);
        }
        if (e instanceof AccessDeniedException a) {
            return say(terminal, json, "\"" + a.getFile() + "\" may not be read; check its permissions", ExitCode.IO);
        }
        if (e instanceof IOException) {
            return say(terminal, json, e.getMessage() + "; check the disk and try again", ExitCode.IO);
        }
        say(
                terminal,
                json,
                "internal error, " + e + "; " + (done.isEmpty() ? "" : done + " all the same; ")
                        + "please report it with what follows",
                ExitCode.BUG);
        e.printStackTrace(terminal.err());
        return ExitCode.BUG.code();
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
