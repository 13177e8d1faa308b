package chainage.ride;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** A track thinned to one point in ten minutes, and fewer when it is very long. */
final class TraceFold {
    private static final long EVERY_MILLIS = 600_000;
    /** Three days at ten minutes. Beyond, every other point goes and the spacing doubles. */
    private static final int MOST = 432;

    private List<Ride.Waypoint> points = new ArrayList<>();
    private long every = EVERY_MILLIS;
    private long kept = Sample.NO_TIME;
    private long millis = Sample.NO_TIME;
    private double latitude;
    private double longitude;
    private double metres;

    void add(long at, double lat, double lon, double ridden) {
        millis = at;
        latitude = lat;
        longitude = lon;
        metres = ridden;
        if (kept == Sample.NO_TIME || Math.abs(at - kept) >= every) {
            keep();
        }
    }

    private void keep() {
        kept = millis;
        points.add(last());
        if (points.size() > MOST) {
            List<Ride.Waypoint> thinned = new ArrayList<>();
            for (int i = 0; i < points.size(); i += 2) {
                thinned.add(points.get(i));
            }
            points = thinned;
            every *= 2;
        }
    }

    private Ride.Waypoint last() {
        return new Ride.Waypoint(Instant.ofEpochMilli(millis), coarse(latitude), coarse(longitude), metres);
    }

    private static double coarse(double degrees) {
        return Math.round(degrees * 100) / 100.0;
    }

    List<Ride.Waypoint> result() {
        List<Ride.Waypoint> all = new ArrayList<>(points);
        if (millis != kept) {
            all.add(last());
        }
        all.sort(Comparator.comparing(Ride.Waypoint::at));
        return List.copyOf(all);
    }
}
