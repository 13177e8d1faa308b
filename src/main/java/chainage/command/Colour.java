package chainage.command;

import chainage.host.Terminal;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Whether answers are coloured: as asked, else where a person looks at a terminal that can do it and did not say no. */
public final class Colour {
    static final String OPTION = "--color";
    static final List<String> WHEN = List.of("auto", "always", "never");

    private Colour() {}

    /**
     * Tells whether they are.
     *
     * @param asked one of {@link #WHEN}; null for nothing
     */
    public static boolean on(@Nullable String asked, Terminal terminal) {
        boolean auto = asked == null || asked.equals("auto");
        return auto ? usual(terminal) : "always".equals(asked);
    }

    /** The same where the words are not parsed yet, as help needs it. */
    public static boolean on(String[] words, Terminal terminal) {
        String asked = null;
        for (int i = 0; i < words.length; i++) {
            if (words[i].startsWith(OPTION + "=")) {
                asked = words[i].substring(OPTION.length() + 1);
            } else if (words[i].equals(OPTION) && i + 1 < words.length) {
                asked = words[i + 1];
            }
        }
        return on(asked, terminal);
    }

    /** NO_COLOR is the convention of no-color.org: any value but an empty one. A terminal without a name is none we know. */
    private static boolean usual(Terminal terminal) {
        String kind = terminal.environment().getOrDefault("TERM", "");
        return terminal.columns() > 0
                && terminal.environment().getOrDefault("NO_COLOR", "").isEmpty()
                && !kind.isEmpty()
                && !kind.equals("dumb");
    }
}
