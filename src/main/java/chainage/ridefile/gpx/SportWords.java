package chainage.ridefile.gpx;

import chainage.ride.Ride.Activity;
import chainage.ride.Ride.Activity.Kind;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.text.Normalizer;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/**
 * What a track's type says about the sport. GPX leaves the type to whoever writes it, so it is matched word by word
 * against {@code sport-words.txt}; a word of another sport outweighs one of cycling (a motorcycle is also a cycle).
 */
final class SportWords {
    private static final Map<String, Set<String>> WORDS = load();

    private SportWords() {}

    static Activity activity(String type) {
        String sport = type.strip().toLowerCase(Locale.ROOT);
        boolean cycling = false;
        boolean other = false;
        boolean indoor = false;
        for (String word : words(type)) {
            cycling |= is("cycling", word);
            other |= is("other", word);
            indoor |= is("indoor", word);
        }
        Kind kind = other ? Kind.OTHER : cycling ? Kind.CYCLING : Kind.UNSTATED;
        return new Activity(sport.length() > 100 ? sport.substring(0, 100) : sport, "", kind, indoor);
    }

    private static boolean is(String list, String word) {
        return WORDS.getOrDefault(list, Set.of()).contains(word);
    }

    /** Words without accents; "VirtualRide" and "mountain_biking" are two words each. */
    private static String[] words(String type) {
        String parted = type.replaceAll("(\\p{Ll})(\\p{Lu})", "$1 $2");
        return plain(parted).split("[^\\p{L}]+", -1);
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
