package chainage.ridefile;

import chainage.ride.RideFormat;
import chainage.ride.Sample;
import java.util.List;

/**
 * The points of a course, ridden or planned, as a file has them.
 *
 * @param format of the file
 * @param points in order; only places, heights and distances are filled in. Empty when the file holds no way
 */
public record Track(RideFormat format, List<Sample> points) {
    public Track {
        points = List.copyOf(points);
    }
}
