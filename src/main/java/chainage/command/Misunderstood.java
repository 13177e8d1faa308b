package chainage.command;

import chainage.typed.Alike;
import chainage.typed.Guesses;
import chainage.typed.TypedDate;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import picocli.CommandLine.MissingParameterException;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;

/** Words that the parser does not understand: what is wrong with them, and what may be meant. */
public final class Misunderstood {
    private Misunderstood() {}

    /** What was typed wrong, and where to look. */
    public static String said(ParameterException e) {
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
