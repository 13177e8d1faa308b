package chainage.cli;

import chainage.host.NotMadeException;
import chainage.host.Terminal;
import chainage.quantity.PlainText;
import chainage.store.LedgerException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.NoSuchFileException;

/** Where every error becomes a line and an exit code. */
final class Errors {
    private Errors() {}

    /** Says what was thrown. */
    static int tell(Terminal terminal, Exception thrown) {
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
            say(terminal, l.what() + "; " + l.hint());
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
        say(terminal, "internal error, " + e + "; please report it with what follows");
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

    /** Says one line. */
    static void say(Terminal terminal, String message) {
        terminal.err().println("chainage: " + PlainText.marked(message));
    }
}
