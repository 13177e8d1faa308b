package chainage.typed;

import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;

/** One word of a few. */
public final class TypedWord {
    private TypedWord() {}

    /**
     * The one that is meant.
     *
     * @param option where it was typed
     */
    public static <E extends Enum<E>> E one(String option, String typed, E[] all) {
        return Arrays.stream(all)
                .filter(e -> word(e).equals(typed))
                .findFirst()
                .orElseThrow(() -> CliError.usage(
                        option + " \"" + typed + "\" is not known",
                        "use one of " + Arrays.stream(all).map(TypedWord::word).collect(Collectors.joining(", "))));
    }

    private static String word(Enum<?> of) {
        return of.name().toLowerCase(Locale.ROOT);
    }
}
