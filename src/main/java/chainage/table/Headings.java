package chainage.table;

import java.text.Normalizer;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.ResourceBundle;

/** Words by which tables call their columns, and riders what they did. */
final class Headings {
    /** A bundle, since the core opens no streams. */
    private static final Map<String, List<String>> WORDS = words();

    private Headings() {}

    /** The words of a deed, or of a part's column ({@code column.date}); none where there are none. */
    static List<String> words(String key) {
        return WORDS.getOrDefault(key, List.of());
    }

    private static Map<String, List<String>> words() {
        ResourceBundle bundle = ResourceBundle.getBundle("chainage.table.words", Locale.ROOT);
        Map<String, List<String>> words = new HashMap<>();
        for (String key : bundle.keySet()) {
            words.put(
                    key,
                    Arrays.stream(bundle.getString(key).split(",", -1))
                            .map(Headings::plain)
                            .toList());
        }
        return words;
    }

    /** Without case, accents, marks, and what stands in brackets. */
    static String plain(String text) {
        return Normalizer.normalize(text.replaceAll("[(\\[{][^)\\]}]*[)\\]}]", " "), Normalizer.Form.NFD)
                .replaceAll("\\p{M}", "")
                .toLowerCase(Locale.ROOT)
                .replaceAll("[^\\p{L}\\p{N}%]+", " ")
                .strip();
    }
}
