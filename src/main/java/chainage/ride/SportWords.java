package chainage.ride;

import chainage.ride.Ride.Activity;
import chainage.ride.Ride.Activity.Kind;
import java.text.Normalizer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.ResourceBundle;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;

/**
 * What the words say that a file has for its sport, the same in every format: those of FIT are the profile's, writers of
 * GPX are free in them, and writers of TCX take the freedom. So they are matched word by word, and two neighbours as one
 * word, against {@code sports.properties}.
 *
 * <p>A word of a motor outweighs one of cycling (a motorcycle is also a cycle), which outweighs one of another sport
 * ("bike and hike"), which outweighs a mere "ride" (there is horse riding).
 */
public final class SportWords {
    /** The lists of the table. */
    private enum Sort {
        MOTOR,
        CYCLING,
        OTHER,
        RIDE,
        INDOOR,
        OFFROAD,
        ASSISTED,
        JOINED
    }

    private static final Map<Sort, Set<String>> WORDS = load();

    private static final int LONGEST_SPORT = 100;

    /** A shorter word inside a longer one is mere chance. */
    private static final int SHORTEST_PART = 3;

    /** Texts whose words are kept; a file may say anything, and does so seldom. */
    private static final int MOST_SPLIT = 1_000;

    private static final Map<String, List<String>> SPLIT = new ConcurrentHashMap<>();

    private SportWords() {}

    /** The activity that a type of GPX or a sport of TCX stands for; unstated when it holds no word that is known. */
    public static Activity activity(String stated) {
        List<String> words = words(stated);
        Kind kind = any(Sort.MOTOR, words)
                ? Kind.OTHER
                : any(Sort.CYCLING, words)
                        ? Kind.CYCLING
                        : any(Sort.OTHER, words) ? Kind.OTHER : any(Sort.RIDE, words) ? Kind.CYCLING : Kind.UNSTATED;
        String sport = apart(stated).strip().toLowerCase(Locale.ROOT);
        return new Activity(
                sport.length() > LONGEST_SPORT ? sport.substring(0, LONGEST_SPORT) : sport,
                "",
                kind,
                any(Sort.INDOOR, words));
    }

    /** Whether a sport or sub-sport is one of trainers, rollers and halls. */
    public static boolean indoor(String stated) {
        return any(Sort.INDOOR, words(stated));
    }

    /** Whether one of these is one of loose ground. */
    static boolean offRoad(String sport, String subSport) {
        return any(Sort.OFFROAD, words(sport)) || any(Sort.OFFROAD, words(subSport));
    }

    /** Whether one of these is one of a bicycle that a motor helps. */
    static boolean assisted(String sport, String subSport) {
        return any(Sort.ASSISTED, words(sport)) || any(Sort.ASSISTED, words(subSport));
    }

    private static boolean any(Sort sort, List<String> words) {
        Set<String> known = WORDS.getOrDefault(sort, Set.of());
        return words.stream().anyMatch(known::contains);
    }

    /** Words cut apart where capitals begin one: "TrackBike" and "GPXTrack" are two words each. */
    private static String apart(String stated) {
        return stated.replaceAll("(\\p{Ll})(\\p{Lu})", "$1 $2").replaceAll("(\\p{Lu})(\\p{Lu}\\p{Ll})", "$1 $2");
    }

    /** Words without accents, single and in pairs. Rides by the thousand say the same few. */
    private static List<String> words(String stated) {
        List<String> known = SPLIT.get(stated);
        if (known == null) {
            known = List.copyOf(split(stated));
            if (SPLIT.size() < MOST_SPLIT) {
                SPLIT.put(stated, known);
            }
        }
        return known;
    }

    private static List<String> split(String stated) {
        List<String> words = new ArrayList<>();
        for (String word : plain(apart(stated)).split("[^\\p{L}]+", -1)) {
            words.addAll(parts(word));
        }
        for (int i = words.size() - 1; i > 0; i--) {
            words.add(words.get(i - 1) + words.get(i));
        }
        return words;
    }

    /** The listed words that an unlisted one is joined of, from its beginning to its end; else the word itself. */
    private static List<String> parts(String word) {
        if (word.length() < 2 * SHORTEST_PART || word.length() > LONGEST_SPORT || known(word)) {
            return List.of(word);
        }
        // By length of the beginning: where its last word starts; -1 where it is not made of listed words.
        int[] last = new int[word.length() + 1];
        Arrays.fill(last, -1);
        last[0] = 0;
        for (int end = SHORTEST_PART; end <= word.length(); end++) {
            for (int from = 0; from <= end - SHORTEST_PART && last[end] < 0; from++) {
                if (last[from] >= 0 && known(word.substring(from, end))) {
                    last[end] = from;
                }
            }
        }
        List<String> parts = new ArrayList<>();
        for (int end = word.length(); end > 0; end = last[end]) {
            if (last[end] < 0) {
                return List.of(word);
            }
            parts.add(0, word.substring(last[end], end));
        }
        return parts;
    }

    private static boolean known(String word) {
        return WORDS.values().stream().anyMatch(w -> w.contains(word));
    }

    private static String plain(String text) {
        return Normalizer.normalize(text, Normalizer.Form.NFD)
                .replaceAll("\\p{M}", "")
                .toLowerCase(Locale.ROOT);
    }

    private static Map<Sort, Set<String>> load() {
        // A bundle, since the core opens no streams.
        ResourceBundle bundle = ResourceBundle.getBundle("chainage.ride.sports", Locale.ROOT);
        Map<Sort, Set<String>> lists = new EnumMap<>(Sort.class);
        for (Sort sort : Sort.values()) {
            lists.put(
                    sort,
                    Arrays.stream(bundle.getString(sort.name().toLowerCase(Locale.ROOT))
                                    .split("\\s+", -1))
                            .map(SportWords::plain)
                            .collect(Collectors.toUnmodifiableSet()));
        }
        return lists;
    }
}
