package chainage.weather;

import java.util.HashMap;
import java.util.Map;

/**
 * What was seen at a station.
 *
 * @param now at the instant of the record; from a table of amounts, what they amount to
 * @param recent since the record before, but no longer; UNSTATED where nothing is said of it
 * @param trace true when something fell, too little to measure
 */
public record Seen(Fall now, Fall recent, boolean trace) {
    /** The record does not say. */
    public static final Seen UNSTATED = new Seen(Fall.UNSTATED, Fall.UNSTATED, false);

    private static final String TRACE = "trace";
    private static final String RECENT = "recent ";
    private static final Map<String, Fall> FALLS = new HashMap<>();

    static {
        for (Phenomenon p : Phenomenon.values()) {
            for (Intensity i : Intensity.values()) {
                Fall f = new Fall(p, i);
                FALLS.putIfAbsent(f.words(), f);
            }
        }
    }

    /** What is seen now, nothing else. */
    public static Seen of(Phenomenon phenomenon, Intensity intensity) {
        return new Seen(new Fall(phenomenon, intensity), Fall.UNSTATED, false);
    }

    /** What fell before the record: of the present and the recent the stronger. */
    Fall before() {
        return recent.millimetresPerHour() > now.millimetresPerHour() ? recent : now;
    }

    /**
     * As words to be kept, such as {@code light rain}, {@code light snow, trace} or {@code nothing, recent moderate rain};
     * empty when the record does not say. {@link #of(String)} reads them back.
     */
    public String words() {
        return now.words()
                + (trace ? ", " + TRACE : "")
                + (recent.phenomenon() == Phenomenon.UNSTATED ? "" : ", " + RECENT + recent.words());
    }

    /**
     * What such words say.
     *
     * @throws IllegalArgumentException when they are none of those
     */
    public static Seen of(String words) {
        String[] parts = words.split(", ", -1);
        Fall recent = Fall.UNSTATED;
        boolean trace = false;
        for (int i = 1; i < parts.length; i++) {
            if (parts[i].equals(TRACE)) {
                trace = true;
            } else if (parts[i].startsWith(RECENT)) {
                recent = fall(parts[i].substring(RECENT.length()), words);
            } else {
                throw unknown(words);
            }
        }
        return new Seen(fall(parts[0], words), recent, trace);
    }

    private static Fall fall(String part, String words) {
        Fall found = FALLS.get(part);
        if (found == null) {
            throw unknown(words);
        }
        return found;
    }

    private static IllegalArgumentException unknown(String words) {
        return new IllegalArgumentException("unknown words for weather: " + words);
    }
}
