package chainage.command;

import chainage.host.Terminal;
import picocli.CommandLine;

/** Runs a command line as the rider would, and answers its exit code. */
public interface Runner {
    int run(Terminal terminal, String... args);

    /** What reads the words of a command, which works with what is given. */
    default CommandLine parser(CommandContext context, String... words) {
        throw new UnsupportedOperationException();
    }

    /** What is written beside the ledger. */
    default CommandContext.Beside beside(CommandContext context) {
        throw new UnsupportedOperationException();
    }

    /** What was typed wrong, and where to look. */
    default String said(CommandLine.ParameterException e) {
        throw new UnsupportedOperationException();
    }
}
