package chainage.weather;

import java.time.Instant;
import java.util.HashMap;
import java.util.Map;

/**
 * What one station knew at one instant. Two with the same station, place and instant are the same observation; the one
 * read later corrects the other.
 *
 * @param station its name as the record has it, such as a location indicator of four letters; may be empty
 * @param place where; {@link Place#UNKNOWN} when not known
 * @param at when it was observed; the end of the time that the amount is for
 * @param seconds how long before {@code at} the amount fell; 0 where there is no amount, only what was seen
 * @param millimetresPerHour measured amount as a rate, snow in water; 0 for none, NaN when not measured
 * @param trace true when something fell, too little to measure; the rate is then 0
 * @param phenomenon what was seen at {@code at}; from a table of amounts, what they amount to
 * @param intensity how strongly; NONE where nothing falls
 * @param celsius air temperature; NaN when not known
 * @param humidityPercent relative humidity, 0 to 100; NaN when not known
 */
public record Observation(
        String station,
        Place place,
        Instant at,
        int seconds,
        double millimetresPerHour,
        boolean trace,
        Phenomenon phenomenon,
        Intensity intensity,
        double celsius,
        double humidityPercent) {
    private record Seen(Phenomenon phenomenon, Intensity intensity) {
        private String words() {
            if (phenomenon == Phenomenon.UNSTATED) {
                return "";
            }
            return intensity == Intensity.NONE ? phenomenon.words() : intensity.words() + " " + phenomenon.words();
        }
    }

    private static final String TRACE = ", trace";
    private static final Map<String, Seen> SEEN = new HashMap<>();

    static {
        for (Phenomenon p : Phenomenon.values()) {
            for (Intensity i : Intensity.values()) {
                Seen s = new Seen(p, i);
                SEEN.putIfAbsent(s.words(), s);
            }
        }
    }

    public Observation {
        if (millimetresPerHour < 0 || Double.isInfinite(millimetresPerHour)) {
            throw new IllegalArgumentException("amount " + millimetresPerHour + " mm/h");
        }
        if (seconds < 0 || (seconds == 0) != Double.isNaN(millimetresPerHour)) {
            throw new IllegalArgumentException("amount " + millimetresPerHour + " mm/h over " + seconds + " s");
        }
        if (trace && millimetresPerHour != 0) {
            throw new IllegalArgumentException("a trace of " + millimetresPerHour + " mm/h");
        }
        if (humidityPercent < 0 || humidityPercent > 100) {
            throw new IllegalArgumentException("humidity " + humidityPercent + " %");
        }
    }

    /** True when an amount was measured, if only none or a trace. */
    public boolean measured() {
        return seconds > 0;
    }

    /** True when it says anything about rain, be it that there was none. */
    public boolean tellsOfRain() {
        return measured() || phenomenon != Phenomenon.UNSTATED;
    }

    /**
     * Phenomenon, intensity and trace as words to be kept, such as {@code light rain} or {@code light snow, trace}; empty
     * when the record does not say. {@link #withSeen} reads them back.
     */
    public String seen() {
        return new Seen(phenomenon, intensity).words() + (trace ? TRACE : "");
    }

    /**
     * The same observation with what {@link #seen} says.
     *
     * @throws IllegalArgumentException when the words are none of those
     */
    public Observation withSeen(String words) {
        boolean traced = words.endsWith(TRACE);
        Seen found = SEEN.get(traced ? words.substring(0, words.length() - TRACE.length()) : words);
        if (found == null) {
            throw new IllegalArgumentException("unknown words for weather: " + words);
        }
        return new Observation(
                station,
                place,
                at,
                seconds,
                millimetresPerHour,
                traced,
                found.phenomenon(),
                found.intensity(),
                celsius,
                humidityPercent);
    }
}
