package chainage.condition;

import chainage.condition.RoadWords.Meaning;
import chainage.condition.RoadWords.OwnWord;
import java.text.Normalizer;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * The word list, ready to look phrases up in.
 *
 * <p>A word stands for itself and for the ways to write it on a keyboard without its accents ("llovio", "Naesse",
 * "vaad"). A text with other accents than the list's is another word. Rows marked {@code exact} stand for themselves
 * alone, where the plain form is a word of another language.
 */
final class RoadWordList {
    /** What a listed word does in a sentence. */
    enum Role {
        /** It says something of the road. */
        ROAD,
        /** Denies what follows: "no". */
        NOT,
        /** Denies what follows if that falls from the sky: one can escape the rain, but dodging puddles one gets wet. */
        AVOID,
        /** Denies what stands before: "stayed away". */
        NOT_BEHIND,
        /** Rain that is over leaves a damp road: "after". Our guess. */
        AFTER,
        /** Makes its clause mere talk: "forecast". */
        PLAN,
        /** Makes what follows a comparison: legs like mud. */
        LIKE,
        /** Makes a name of a word of the road beside it, where both have a capital: Muddy Lane. */
        PLACE,
        /** Carries a denial on: "or". */
        OR,
        /** May stand between a denial and its word: "a drop of". */
        FILLER,
        /** Softens a denial: not very wet is still damp. */
        DEGREE,
        /** Begins another clause: "but". */
        BREAK,
        /** Begins a clause too: a forecast in it is one that failed. */
        DESPITE;

        static @Nullable Role of(String word) {
            for (Role r : values()) {
                if (r != ROAD
                        && r.name().toLowerCase(Locale.ROOT).replace('_', '-').equals(word)) {
                    return r;
                }
            }
            return null;
        }
    }

    /**
     * A listed word.
     *
     * @param meaning NONE unless the role is ROAD
     * @param falls water from the sky, which can be avoided or be over
     */
    record Entry(Role role, Meaning meaning, boolean falls) {}

    /** Meaning of water that falls; wet otherwise. */
    private static final String RAIN = "rain";

    private static final Pattern MARKS = Pattern.compile("\\p{M}+");

    private final Map<String, Entry> entries = new HashMap<>();
    /** Most words in a phrase, by its first word. */
    private final Map<String, Integer> longest = new HashMap<>();

    private RoadWordList() {}

    static RoadWordList parse(String table, List<OwnWord> own) {
        RoadWordList list = new RoadWordList();
        Map<String, Entry> plain = new HashMap<>();
        for (String line : table.lines().toList()) {
            if (line.isBlank() || line.startsWith("#")) {
                continue;
            }
            String[] cells = line.split("\t", -1);
            if (cells.length != 4) {
                throw new IllegalArgumentException("word line has " + cells.length + " cells, not 4: " + line);
            }
            Entry entry = entry(cells[2], line);
            for (String word : cells[1].split(",", -1)) {
                String key = RoadText.key(word);
                if (key.isEmpty()) {
                    throw new IllegalArgumentException("no word between the commas: " + line);
                }
                put(list.entries, key, entry);
                if (!cells[3].startsWith("exact")) {
                    spellings(key).forEach(k -> put(plain, k, entry));
                }
            }
        }
        // A word that is listed as such goes before another one's plain spelling, but must not contradict it.
        plain.forEach((key, entry) -> put(list.entries, key, entry));
        for (OwnWord w : own) {
            String key = RoadText.key(w.text());
            Entry entry = new Entry(Role.ROAD, w.meaning(), false);
            list.entries.put(key, entry);
            spellings(key).forEach(k -> list.entries.put(k, entry));
        }
        for (String key : list.entries.keySet()) {
            int space = key.indexOf(' ');
            String first = space < 0 ? key : key.substring(0, space);
            int words = 1 + (int) key.chars().filter(c -> c == ' ').count();
            list.longest.merge(first, words, Math::max);
        }
        return list;
    }

    private static Entry entry(String meaning, String line) {
        if (meaning.equals(RAIN)) {
            return new Entry(Role.ROAD, Meaning.WET, true);
        }
        Role role = Role.of(meaning);
        if (role != null) {
            return new Entry(role, Meaning.NONE, false);
        }
        return Meaning.of(meaning)
                .map(m -> new Entry(Role.ROAD, m, false))
                .orElseThrow(() -> new IllegalArgumentException("no meaning \"" + meaning + "\": " + line));
    }

    private static void put(Map<String, Entry> entries, String key, Entry entry) {
        Entry before = entries.put(key, entry);
        if (before != null && !before.equals(entry)) {
            throw new IllegalArgumentException("two meanings of \"" + key + "\": " + before + ", " + entry);
        }
    }

    /** How a word is written without its accents, in the ways of the languages that have one. */
    static Set<String> spellings(String key) {
        if (key.chars().allMatch(c -> c < 0x80)) {
            return Set.of();
        }
        Set<String> all = new LinkedHashSet<>();
        String stripped =
                key.replace("ß", "ss").replace("ł", "l").replace("ø", "o").replace("æ", "ae");
        all.add(MARKS.matcher(Normalizer.normalize(stripped, Normalizer.Form.NFD))
                .replaceAll(""));
        String spelled = key.replace("ä", "ae")
                .replace("ö", "oe")
                .replace("ü", "ue")
                .replace("ø", "oe")
                .replace("å", "aa");
        String spelledOut = spelled.replace("ß", "ss").replace("æ", "ae");
        all.add(spelledOut);
        // "Strasse" with its umlauts kept, as the Swiss write.
        all.add(key.replace("ß", "ss"));
        all.remove(key);
        return all;
    }

    /** The longest listed phrase that starts at that word, in words; 0 when none does. */
    int match(List<RoadText.Token> tokens, int at) {
        Integer most = longest.get(tokens.get(at).key());
        if (most == null) {
            return 0;
        }
        List<String> keys = new ArrayList<>();
        StringBuilder key = new StringBuilder();
        for (int i = at; i < tokens.size() && i - at < most; i++) {
            if (i > at) {
                if (tokens.get(i).gap().compareTo(RoadText.Gap.SPACE) > 0) {
                    break;
                }
                key.append(' ');
            }
            keys.add(key.append(tokens.get(i).key()).toString());
        }
        for (int words = keys.size(); words > 0; words--) {
            if (entries.containsKey(keys.get(words - 1))) {
                return words;
            }
        }
        return 0;
    }

    /** What that phrase, lower case and joined by spaces, stands for; null when it is not listed. */
    @Nullable
    Entry entry(String key) {
        return entries.get(key);
    }
}
