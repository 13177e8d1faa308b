package chainage.ridefile;

import chainage.ride.Ride.Activity;
import chainage.ride.Ride.Activity.Kind;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.text.Normalizer;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/**
 * What the words say that a file has for its sport. Writers of GPX are free in them, and writers of TCX take the freedom,
 * so they are matched word by word, and two neighbours as one word, against {@code sport-words.txt}.
 *
 * <p>A word of a motor outweighs one of cycling (a motorcycle is also a cycle), which outweighs one of another sport
 * ("bike and hike"), which outweighs a mere "ride" (there is horse riding).
 */
public final class SportWords {
    private static final Map<String, Set<String>> WORDS = load();

    private static final int LONGEST_SPORT = 100;

    private SportWords() {}

    /** The activity that the words stand for; unstated when they hold none that is known. */
    public static Activity activity(String stated) {
        String sport = stated.strip().toLowerCase(Locale.ROOT);
        List<String> words = words(stated);
        Kind kind = any("motor", words)
                ? Kind.OTHER
                : any("cycling", words)
                        ? Kind.CYCLING
                        : any("other", words) ? Kind.OTHER : any("ride", words) ? Kind.CYCLING : Kind.UNSTATED;
        return new Activity(
                sport.length() > LONGEST_SPORT ? sport.substring(0, LONGEST_SPORT) : sport,
                "",
                kind,
                any("indoor", words));
    }

    private static boolean any(String list, List<String> words) {
        Set<String> known = WORDS.getOrDefault(list, Set.of());
        return words.stream().anyMatch(known::contains);
    }

    /** Words without accents, single and in pairs; "VirtualRide" and "mountain_biking" are two words each. */
    private static List<String> words(String stated) {
        String parted = stated.replaceAll("(\\p{Ll})(\\p{Lu})", "$1 $2");
        List<String> words = new ArrayList<>(List.of(plain(parted).split("[^\\p{L}]+", -1)));
        for (int i = words.size() - 1; i > 0; i--) {
            words.add(words.get(i - 1) + words.get(i));
        }
        return words;
    }

    private static String plain(String text) {
        return Normalizer.normalize(text, Normalizer.Form.NFD)
                .replaceAll("\\p{M}", "")
                .toLowerCase(Locale.ROOT);
    }

    private static Map<String, Set<String>> load() {
        Map<String, Set<String>> lists = new HashMap<>();
        try (InputStream in = SportWords.class.getResourceAsStream("sport-words.txt")) {
            if (in == null) {
                throw new IllegalStateException("sport-words.txt is missing from the program");
            }
            for (String line : new String(in.readAllBytes(), StandardCharsets.UTF_8).split("\n", -1)) {
                int colon = line.indexOf(':');
                if (colon > 0 && !line.startsWith("#")) {
                    Set<String> list = lists.computeIfAbsent(line.substring(0, colon), k -> new HashSet<>());
                    for (String word : line.substring(colon + 1).strip().split("\\s+", -1)) {
                        list.add(plain(word));
                    }
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return lists;
    }
}
