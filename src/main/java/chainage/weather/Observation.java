package chainage.weather;

import java.time.Instant;

/**
 * What one station knew at one instant. Two with the same station, place and instant are the same observation; the one
 * read later corrects the other.
 *
 * @param station its name as the record has it, such as a location indicator of four letters; may be empty
 * @param place where; {@link Place#UNKNOWN} when not known
 * @param at when it was observed; the end of the time that the amount is for
 * @param seconds how long before {@code at} the amount fell; 0 where there is no amount, only what was seen
 * @param millimetresPerHour measured amount as a rate, snow in water; 0 for none and for a trace, NaN when not measured
 * @param seen what was seen to fall
 * @param air as the station measured it
 */
public record Observation(
        String station, Place place, Instant at, int seconds, double millimetresPerHour, Seen seen, Air air) {
    public Observation {
        if (millimetresPerHour < 0 || Double.isInfinite(millimetresPerHour)) {
            throw new IllegalArgumentException("amount " + millimetresPerHour + " mm/h");
        }
        if (seconds < 0 || (seconds == 0) != Double.isNaN(millimetresPerHour)) {
            throw new IllegalArgumentException("amount " + millimetresPerHour + " mm/h over " + seconds + " s");
        }
        if (seen.trace() && millimetresPerHour != 0) {
            throw new IllegalArgumentException("a trace of " + millimetresPerHour + " mm/h");
        }
    }

    /** True when an amount was measured, if only none or a trace. */
    public boolean measured() {
        return seconds > 0;
    }

    /** True when it says anything about rain, be it that there was none. */
    public boolean tellsOfRain() {
        return measured() || seen.now().phenomenon() != Phenomenon.UNSTATED;
    }
}
