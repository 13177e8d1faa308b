package chainage.meter;

import chainage.attribution.AttributedRide;
import chainage.friction.Friction;
import chainage.friction.RideLoss;
import chainage.ledger.Ledger;
import chainage.ledger.MeterPlace;
import chainage.meter.MeasuredLoss.Pair;
import chainage.ride.FiledRide;
import chainage.ride.Ride;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;

/** Finds the outings that two meters recorded. */
public final class RidePairs {
    private RidePairs() {}

    /** The recordings of an outing that hold power, the one that counts first. */
    private static List<FiledRide> powered(AttributedRide outing) {
        return Stream.concat(Stream.of(outing.filed()), outing.twins().stream())
                .filter(r -> r.ride().effort().watts() > 0)
                .toList();
    }

    /** Outings with power in two recordings or more: all that can hold a pair. */
    public static List<AttributedRide> twice(List<AttributedRide> rides) {
        return rides.stream()
                .filter(r -> r.counted() && !r.twins().isEmpty() && powered(r).size() > 1)
                .toList();
    }

    /**
     * The pairs, by start: of each outing its first recording from before the chain and the first from behind it.
     *
     * @param losses of the rides, by their ids
     */
    public static List<RidePair> of(
            Ledger ledger, List<AttributedRide> rides, Map<String, RideLoss> losses, Friction friction) {
        Meters meters = new Meters(ledger);
        List<RidePair> pairs = new ArrayList<>();
        for (AttributedRide outing : twice(rides)) {
            FiledRide before = null;
            FiledRide behind = null;
            for (FiledRide r : powered(outing)) {
                Optional<MeterPlace> place = meters.of(r.ride()).flatMap(meters::place);
                before = before == null
                                && place.filter(p -> p == MeterPlace.BEFORE_CHAIN)
                                        .isPresent()
                        ? r
                        : before;
                behind = behind == null
                                && place.filter(p -> p == MeterPlace.BEHIND_CHAIN)
                                        .isPresent()
                        ? r
                        : behind;
            }
            if (before != null && behind != null) {
                RideLoss loss = outing.others().isEmpty() ? losses.get(outing.id()) : null;
                pairs.add(new RidePair(
                        outing,
                        before,
                        behind,
                        new Pair(name(meters, before), name(meters, behind)),
                        Laying.of(before.ride().power(), behind.ride().power()),
                        loss,
                        loss == null ? Double.NaN : friction.mu(loss.exposure().method(), loss.cleaning(), 0)));
            }
        }
        return List.copyOf(pairs);
    }

    private static String name(Meters meters, FiledRide recording) {
        return meters.of(recording.ride()).map(Ride.Device::name).orElseThrow();
    }

    /** How many outings hold power of both of two meters, whatever their places, by the meters in order of their names. */
    public static SortedMap<String, Integer> together(Ledger ledger, List<AttributedRide> rides) {
        Meters meters = new Meters(ledger);
        SortedMap<String, Integer> counts = new TreeMap<>();
        for (AttributedRide outing : twice(rides)) {
            List<String> names = powered(outing).stream()
                    .flatMap(r -> meters.of(r.ride()).stream())
                    .map(Ride.Device::name)
                    .distinct()
                    .sorted()
                    .toList();
            if (names.size() > 1) {
                counts.merge(String.join(" with ", names), 1, Integer::sum);
            }
        }
        return counts;
    }
}
