package chainage.ride;

import chainage.quantity.LocalClock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/** Where a ride was by its clock: as its file states, else as the rider's nearest ride in time and place does. */
public final class LocalTimes {
    /** So far in time another ride is looked for where both say where they began; our guess. */
    private static final Duration LATELY = Duration.ofDays(30);
    /** The same where one of them does not say; our guess. */
    private static final Duration NEAR = Duration.ofDays(3);
    /** Within so many metres two rides share the time; our guess, a third of a time zone's width at the equator. */
    private static final double AROUND = 500_000;

    private final ZoneId zone;
    private final TreeMap<Instant, FiledRide> stating = new TreeMap<>();

    private LocalTimes(ZoneId zone) {
        this.zone = zone;
    }

    /**
     * The rider's local time.
     *
     * @param rides all of them, by start
     * @param home the time where no ride says otherwise
     */
    public static LocalClock of(List<FiledRide> rides, LocalClock home) {
        return new LocalTimes(home.zone()).clock(rides, home);
    }

    private LocalClock clock(List<FiledRide> rides, LocalClock home) {
        List<FiledRide> silent = new ArrayList<>();
        for (FiledRide r : rides) {
            if (r.ride().offset() == null) {
                silent.add(r);
            } else {
                stating.putIfAbsent(r.ride().start(), r);
            }
        }
        Map<Instant, LocalClock.Told> told = new HashMap<>();
        stating.forEach((start, r) -> told.put(start, new LocalClock.Told(offset(r), null)));
        if (stating.isEmpty()) {
            return home;
        }
        for (FiledRide r : silent) {
            Instant start = r.ride().start();
            if (!told.containsKey(start)) {
                FiledRide near = nearest(r);
                ZoneOffset here = zone.getRules().getOffset(start);
                // At home the zone knows better than a ride of weeks ago: clocks may have been changed since.
                told.put(
                        start,
                        near == null
                                ? new LocalClock.Told(here, r.id())
                                : new LocalClock.Told(atHome(near) ? here : offset(near), near.id()));
            }
        }
        return home.with(told);
    }

    private static ZoneOffset offset(FiledRide r) {
        ZoneOffset offset = r.ride().offset();
        return offset == null ? ZoneOffset.UTC : offset;
    }

    private boolean atHome(FiledRide r) {
        return offset(r).equals(zone.getRules().getOffset(r.ride().start()));
    }

    /** The nearest one in time that may be near in place as well. */
    private @Nullable FiledRide nearest(FiledRide r) {
        Instant start = r.ride().start();
        FiledRide before = first(stating.headMap(start, true).descendingMap().values(), r);
        FiledRide after = first(stating.tailMap(start, true).values(), r);
        if (before == null || after == null) {
            return before == null ? after : before;
        }
        return apart(r, after).compareTo(apart(r, before)) < 0 ? after : before;
    }

    private static @Nullable FiledRide first(Iterable<FiledRide> others, FiledRide r) {
        for (FiledRide o : others) {
            Duration apart = apart(r, o);
            if (apart.compareTo(LATELY) > 0) {
                return null;
            }
            double metres = metres(r, o);
            if (Double.isNaN(metres) ? apart.compareTo(NEAR) <= 0 : metres <= AROUND) {
                return o;
            }
        }
        return null;
    }

    private static Duration apart(FiledRide a, FiledRide b) {
        return Duration.between(a.ride().start(), b.ride().start()).abs();
    }

    /** Between the starts; NaN where one of them is not known. */
    private static double metres(FiledRide a, FiledRide b) {
        List<Ride.Waypoint> from = a.ride().trace();
        List<Ride.Waypoint> to = b.ride().trace();
        return from.isEmpty() || to.isEmpty()
                ? Double.NaN
                : Geodesics.metres(
                        from.get(0).latitude(),
                        from.get(0).longitude(),
                        to.get(0).latitude(),
                        to.get(0).longitude());
    }
}
