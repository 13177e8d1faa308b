package chainage.typed;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;

/**
 * Commands and options that had other words in earlier versions. Scripts go on working: the old word is read as the new
 * one, and a hint says so. No help lists them.
 */
public final class EarlierWords {
    /**
     * What a command is called now.
     *
     * @param words in its place
     * @param shown the same for the rider
     */
    private record Now(List<String> words, String shown) {}

    private static final Map<String, Now> COMMANDS = Map.of(
            "untag", new Now(List.of("tag", "--withdraw"), "tag RIDE --withdraw"),
            "report", new Now(List.of("page"), "page"));

    /** By command, what its options are called now. */
    private static final Map<String, Map<String, String>> OPTIONS = Map.of(
            "assign",
            Map.of("--forget", "--withdraw", "--twin-of", "--duplicate-of", "--not-a-twin", "--not-a-duplicate"),
            "chain",
            Map.of("--pitches", "--links"));

    private EarlierWords() {}

    /**
     * The same command line in present words.
     *
     * @param command where the command stands in it; any other number where none does
     * @param hint takes a line for each word that was replaced
     */
    public static String[] today(String[] args, int command, Consumer<String> hint) {
        if (command < 0 || command >= args.length) {
            return args;
        }
        List<String> today = new ArrayList<>(List.of(args).subList(0, command));
        Now now = COMMANDS.get(args[command]);
        if (now != null) {
            hint.accept(replaced(args[command], now.shown()));
        }
        today.addAll(now == null ? List.of(args[command]) : now.words());
        Map<String, String> options = OPTIONS.getOrDefault(args[command], Map.of());
        boolean end = false;
        for (String arg : List.of(args).subList(command + 1, args.length)) {
            end |= arg.equals("--");
            int equals = arg.indexOf('=');
            String name = equals < 0 ? arg : arg.substring(0, equals);
            String option = end ? null : options.get(name);
            if (option == null) {
                today.add(arg);
            } else {
                hint.accept(replaced(name, option));
                today.add(option + arg.substring(name.length()));
            }
        }
        return today.toArray(String[]::new);
    }

    private static String replaced(String was, String is) {
        return "\"" + was + "\" is now \"" + is + "\"; the old word still works";
    }
}
