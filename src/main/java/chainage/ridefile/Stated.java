package chainage.ridefile;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * One activity's own summary, as its file states it; what it does not state is null or NaN.
 *
 * @param start first instant
 * @param elapsedSeconds from start to end
 * @param timerSeconds while the recording ran
 * @param metres the device's total
 * @param lapMetres what the laps add up to, where a file states a total beside them: they can lack much of the way
 * @param watts mean power; 0 may mean that there was no meter
 * @param ascentMetres climbed
 */
public record Stated(
        @Nullable Instant start,
        double elapsedSeconds,
        double timerSeconds,
        double metres,
        double lapMetres,
        double watts,
        double ascentMetres) {
    /** A file without any summary. */
    public static final Stated NOTHING =
            new Stated(null, Double.NaN, Double.NaN, Double.NaN, Double.NaN, Double.NaN, Double.NaN);

    /** The same with another sum of the laps. */
    public Stated withLapMetres(double sum) {
        return new Stated(start, elapsedSeconds, timerSeconds, metres, sum, watts, ascentMetres);
    }
}
