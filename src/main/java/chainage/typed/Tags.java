package chainage.typed;

import chainage.answer.EventWords;
import chainage.ledger.Grit;
import chainage.ledger.Moisture;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A flag as the rider types it: words such as {@code wet 40% gritty}.
 *
 * @param moisture null when no word names it
 * @param share of the ride it holds for, 0 to 1
 * @param grit null when no word names it
 */
public record Tags(
        @Nullable Moisture moisture, double share, @Nullable Grit grit) {
    /** How a command that takes rides and tags writes them in its help. */
    public static final String LABEL = "RIDE... TAG...";

    public static final String FORMS = "tags are wet, damp, dry or indoor, with a share such as 40% behind wet or damp;"
            + " gritty, dusty or clean; muddy for wet and gritty";

    /** The same for a help text, where a per cent sign is doubled. */
    public static final String HELP =
            "Tags are wet, damp, dry or indoor, with a share such as 40%% behind wet or damp; gritty, dusty or clean;"
                    + " muddy for wet and gritty.";

    /** The words there are, shares apart. */
    public static final List<String> WORDS =
            List.of("wet", "damp", "dry", "indoor", "gritty", "dusty", "clean", "muddy");

    /** A share without its sign, or written to the word. */
    private static final Pattern SHARE = Pattern.compile("(wet|damp)?(\\d{1,3})%?");

    public static boolean isWord(String word) {
        return WORDS.contains(word.toLowerCase(Locale.ROOT)) || word.matches("\\d+([.,]\\d+)? ?%");
    }

    /** Words parted into those that name rides and those that say how they were. */
    public record Said(List<String> rides, List<String> tags) {}

    /**
     * Parts them.
     *
     * @throws CliError at a word that is neither, or that stands on the wrong side
     */
    public static Said said(List<String> words) {
        List<String> selectors = new ArrayList<>();
        List<String> tags = new ArrayList<>();
        for (String w : words) {
            boolean ride = RideSelection.isShaped(w);
            if (Tags.isWord(w)) {
                tags.add(w);
            } else if (tags.isEmpty() && (ride || (selectors.isEmpty() && !Tags.isMeant(w)))) {
                selectors.add(w);
            } else if (ride) {
                throw CliError.usage(
                        "\"" + w + "\" is no tag",
                        selectors.isEmpty()
                                ? "name the ride first: chainage tag " + w + " " + String.join(" ", tags)
                                : "name all rides first, then how they were");
            } else {
                throw CliError.usage("\"" + w + "\" is no tag", Tags.hint(w));
            }
        }
        return new Said(selectors, tags);
    }

    /** What may be meant by a word that is none of them. */
    public static String hint(String typed) {
        String w = typed.toLowerCase(Locale.ROOT);
        Matcher share = SHARE.matcher(w);
        return share.matches()
                ? Alike.question(List.of((share.group(1) == null ? "" : share.group(1) + " ") + share.group(2) + "%"))
                : Guesses.hint(Guesses.Of.TAG, w, WORDS, FORMS);
    }

    /** Whether a tag may be meant by it. */
    public static boolean isMeant(String typed) {
        return !hint(typed).equals(FORMS);
    }

    /**
     * Reads the words.
     *
     * @throws CliError when two of them contradict each other, or a share stands alone
     */
    public static Tags parse(List<String> words) {
        Moisture moisture = null;
        Grit grit = null;
        double share = 1;
        boolean shared = false;
        for (String typed : words) {
            String w = typed.toLowerCase(Locale.ROOT);
            Moisture m = switch (w) {
                case "wet", "muddy" -> Moisture.WET;
                case "damp" -> Moisture.DAMP;
                case "dry" -> Moisture.DRY;
                case "indoor" -> Moisture.INDOOR;
                default -> null;
            };
            Grit g = switch (w) {
                case "gritty", "muddy" -> Grit.GRITTY;
                case "dusty" -> Grit.DUSTY;
                case "clean" -> Grit.CLEAN;
                default -> null;
            };
            if ((m != null && moisture != null && m != moisture) || (g != null && grit != null && g != grit)) {
                throw CliError.usage("\"" + String.join(" ", words) + "\" contradicts itself", FORMS);
            }
            moisture = m == null ? moisture : m;
            grit = g == null ? grit : g;
            if (w.endsWith("%")) {
                share = TypedNumber.of(w.substring(0, w.length() - 1)) / 100;
                shared = true;
            }
        }
        if (!(share >= 0 && share <= 1)) {
            throw CliError.usage("a share is between 0% and 100%", FORMS);
        }
        if (shared && moisture != Moisture.WET && moisture != Moisture.DAMP) {
            throw CliError.usage("a share stands without wet or damp", FORMS);
        }
        return new Tags(moisture, share, grit);
    }

    /** For example {@code wet for 40 %, gritty}. */
    public String words() {
        return EventWords.flags(moisture, share, grit);
    }
}
