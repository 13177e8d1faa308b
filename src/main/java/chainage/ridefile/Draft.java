package chainage.ridefile;

import chainage.ride.Ride;
import chainage.ride.RideFold;
import java.time.ZoneOffset;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One activity as a reader leaves it: summary and folded samples side by side, nothing decided yet.
 *
 * @param session place among the file's activities
 * @param stated the file's summary
 * @param fold its samples
 * @param activity sport
 * @param devices in order of appearance
 * @param weather by time
 * @param labels the file's own words
 * @param remarks what the reader had to decide
 * @param unreadable how many numbers could not be read
 * @param unreadableTimes how many times could not be read
 * @param clockMayJump true where a wrong clock is known to be set during the ride, so that the later time holds
 * @param salvaged what was lost; null for a whole activity
 * @param offset of the local time from UTC; null where the file states none
 */
public record Draft(
        int session,
        Stated stated,
        RideFold fold,
        Ride.Activity activity,
        List<Ride.Device> devices,
        List<Ride.WeatherReport> weather,
        Ride.Labels labels,
        List<String> remarks,
        int unreadable,
        int unreadableTimes,
        boolean clockMayJump,
        @Nullable String salvaged,
        @Nullable ZoneOffset offset) {}
