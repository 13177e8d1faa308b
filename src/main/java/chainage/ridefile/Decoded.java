package chainage.ridefile;

import chainage.ride.Ride;
import chainage.ride.RideFormat;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What one file held.
 *
 * @param format of the file
 * @param activities the dated activities of any sport, by place in the file
 * @param passed what could not become one, by place in the file
 * @param ahead the earliest date that was not believed because it lies ahead of the clock; null where none was: only
 *     then would another clock change nothing
 */
public record Decoded(
        RideFormat format,
        List<Ride> activities,
        List<Passed> passed,
        @Nullable Instant ahead) {
    public Decoded {
        activities = List.copyOf(activities);
        passed = List.copyOf(passed);
    }

    /**
     * A part of the file that is no dated activity.
     *
     * @param session place among the file's activities
     * @param refused true when it looks like a ride that is broken, false when it is simply something else (a course,
     *     settings, a planned route)
     * @param what what it is, or what is wrong with it
     * @param hint what the rider can do; empty when nothing need be done
     */
    public record Passed(int session, boolean refused, String what, String hint) {}
}
