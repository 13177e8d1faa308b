package chainage.typed;

import chainage.host.Resource;
import java.util.Collection;
import java.util.List;
import java.util.Locale;

/**
 * What is meant by a word that is none of those that may stand there: by a list of what riders try, {@code guesses.tsv},
 * and else by likeness. It is only suggested, never run.
 */
public final class Guesses {
    /** Where a word stands. */
    public enum Of {
        COMMAND,
        /** A command behind another. */
        BELOW,
        OPTION,
        /** An option of a command that takes rides by name, for which a range will do. */
        RANGE,
        TAG,
        METHOD,
        REMARK,
        TOOL,
        UNITS,
        TOPIC
    }

    /** A line of the list. */
    record Line(Of of, List<String> words, List<String> meant) {}

    private Guesses() {}

    /** The list, read only where something is not understood. */
    static List<Line> all() {
        return Resource.text("/chainage/typed/guesses.tsv")
                .lines()
                .filter(l -> !l.startsWith("#"))
                .map(l -> l.split("\t", -1))
                .map(f -> new Line(
                        Of.valueOf(f[0].toUpperCase(Locale.ROOT)), List.of(f[1].split(" ")), List.of(f[2].split(", "))))
                .toList();
    }

    /** What the list says is meant; none where the word is not in it. */
    public static List<String> of(Of of, String typed) {
        String word = typed.toLowerCase(Locale.ROOT).replaceFirst("^-+", "");
        return all().stream()
                .filter(l -> l.of() == of && l.words().contains(word))
                .flatMap(l -> l.meant().stream())
                .toList();
    }

    /** The question to ask, or what else to say where nothing is meant or near. */
    public static String hint(Of of, String typed, Collection<String> words, String otherwise) {
        List<String> meant = of(of, typed);
        return meant.isEmpty() ? Alike.hint(typed, words, otherwise) : Alike.question(meant);
    }
}
