package chainage.quantity;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Collections;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * The rider's local time: that of the home zone, but where rides say that they were elsewhere.
 *
 * <p>Immutable.
 */
public final class LocalClock {
    /** So near a ride that was elsewhere the rider was there too; our guess. */
    private static final Duration NEAR = Duration.ofDays(3);

    /**
     * What a ride says of the time where it began.
     *
     * @param offset of that time from UTC
     * @param as id of the ride that states it; null where the ride itself does
     */
    public record Told(ZoneOffset offset, @Nullable String as) {}

    private final ZoneId zone;
    private final NavigableMap<Instant, Told> told;
    /** Of those, what was stated and is not what the zone has. */
    private final NavigableMap<Instant, ZoneOffset> stated = new TreeMap<>();

    private LocalClock(ZoneId zone, Map<Instant, Told> told) {
        this.zone = zone;
        this.told = Collections.unmodifiableNavigableMap(new TreeMap<>(told));
        told.forEach((at, t) -> {
            if (t.as() == null) {
                stated.put(at, t.offset());
            }
        });
    }

    /** The time of a zone. */
    public static LocalClock of(ZoneId zone) {
        return new LocalClock(zone, Map.of());
    }

    /**
     * The same with what rides say.
     *
     * @param rides by the start of each
     */
    public LocalClock with(Map<Instant, Told> rides) {
        return rides.isEmpty() ? this : new LocalClock(zone, rides);
    }

    /** What rides say, all of it; empty where none says other than the zone, so that it tells no date otherwise. */
    public Map<Instant, Told> abroad() {
        boolean atHome =
                told.entrySet().stream().allMatch(e -> e.getValue().offset().equals(home(e.getKey())));
        return atHome ? Map.of() : told;
    }

    /** The home zone. */
    public ZoneId zone() {
        return zone;
    }

    /** True when any ride says where it was. */
    public boolean isTold() {
        return !stated.isEmpty();
    }

    /** What the ride that began at that instant says; null where it goes by the home zone. */
    public @Nullable Told told(Instant start) {
        return told.get(start);
    }

    /** The local time's offset: of a ride's start its own, else of the nearest ride within three days, else the zone's. */
    public ZoneOffset offset(Instant at) {
        ZoneOffset home = home(at);
        if (stated.isEmpty()) {
            return home;
        }
        Told own = told.get(at);
        if (own != null) {
            return own.offset();
        }
        Map.Entry<Instant, ZoneOffset> near = nearest(at);
        return near == null || near.getValue().equals(home(near.getKey())) ? home : near.getValue();
    }

    private ZoneOffset home(Instant at) {
        return zone.getRules().getOffset(at);
    }

    private Map.@Nullable Entry<Instant, ZoneOffset> nearest(Instant at) {
        Map.Entry<Instant, ZoneOffset> before = stated.floorEntry(at);
        Map.Entry<Instant, ZoneOffset> after = stated.ceilingEntry(at);
        Map.Entry<Instant, ZoneOffset> nearest = before;
        if (before == null || (after != null && between(at, after).compareTo(between(at, before)) < 0)) {
            nearest = after;
        }
        return nearest == null || between(at, nearest).compareTo(NEAR) > 0 ? null : nearest;
    }

    private static Duration between(Instant at, Map.Entry<Instant, ?> ride) {
        return Duration.between(at, ride.getKey()).abs();
    }

    public LocalDateTime time(Instant at) {
        return LocalDateTime.ofInstant(at, offset(at));
    }

    public LocalDate day(Instant at) {
        return time(at).toLocalDate();
    }

    /** The first instant of a local day. */
    public Instant start(LocalDate day) {
        return instant(day.atStartOfDay());
    }

    /** The instant of a local time; where clocks are put forward over it, the one after. */
    public Instant instant(LocalDateTime time) {
        Instant home = time.atZone(zone).toInstant();
        ZoneOffset offset = offset(home);
        if (offset.equals(home(home))) {
            return home;
        }
        return time.toInstant(offset);
    }
}
