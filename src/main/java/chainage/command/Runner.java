package chainage.command;

import chainage.host.Terminal;
import java.util.List;
import java.util.Objects;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;

/** What knows all commands, for those who are to know none. */
public interface Runner {
    /** Runs a command line as the rider would, and answers its exit code. */
    int run(Terminal terminal, String... args);

    /** What reads the words of a command, which works with what is given. */
    CommandLine parser(CommandContext context, String... words);

    /** What is written beside the ledger. */
    CommandContext.Beside beside(CommandContext context);

    /** What was typed wrong, and where to look. */
    String said(CommandLine.ParameterException e);

    /** What a command declares. */
    default CommandSpec declared(CommandContext context, List<String> words) {
        CommandLine line = parser(context, words.toArray(String[]::new));
        for (String word : words) {
            line = Objects.requireNonNull(line.getSubcommands().get(word), word);
        }
        return line.getCommandSpec();
    }
}
