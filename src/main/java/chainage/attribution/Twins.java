package chainage.attribution;

import chainage.ledger.Ledger;
import chainage.ride.FiledRide;
import chainage.ride.Ride;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** Finds recordings of one outing, so that it counts once. */
final class Twins {
    /** Distances of twins agree within this share of the longer; our guess, wide enough for a wheel size set wrong. */
    private static final double DISTANCE_SHARE = 0.05;
    /** Twins overlap by more than this share of the shorter. */
    private static final double OVERLAP_SHARE = 0.5;
    /** Clocks of two devices may be so far apart; our guess. It matters only for outings of a few minutes. */
    private static final Duration CLOCKS = Duration.ofSeconds(60);

    /** What is counted of two twins: the one with a distance, the better format, the whole file, the denser one. */
    static final Comparator<FiledRide> RICHEST_FIRST = Comparator.comparing(
                    (FiledRide r) -> r.ride().distance().metres() <= 0)
            .thenComparing(r -> r.ride().format())
            .thenComparing(r -> r.ride().salvaged() != null)
            .thenComparing(r -> -r.ride().effort().samples())
            .thenComparing(r -> r.ride().key().digest().hex())
            .thenComparing(r -> r.ride().key().session());

    private final Ledger ledger;
    private final BikeRules rules;

    Twins(Ledger ledger, BikeRules rules) {
        this.ledger = ledger;
        this.rules = rules;
    }

    /**
     * Which ride repeats which.
     *
     * @param rides those that count, by start
     * @return id of each twin, to the id of the ride that is counted in its place
     */
    Map<String, String> find(List<FiledRide> rides) {
        Set<String> ids = rides.stream().map(FiledRide::id).collect(Collectors.toSet());
        Map<String, List<FiledRide>> partners = partners(rides);
        Map<String, String> twinOf = new HashMap<>();
        // What the rider states holds first, so that nothing becomes the twin of a twin.
        for (FiledRide r : rides) {
            Optional<String> said = ledger.twinOf(r.id()).filter(of -> !of.equals(r.id()) && ids.contains(of));
            said.ifPresent(of -> twinOf.put(r.id(), of));
        }
        twinOf.replaceAll((id, of) -> root(twinOf, of));
        for (FiledRide r : rides.stream().sorted(RICHEST_FIRST).toList()) {
            if (twinOf.containsKey(r.id()) || ledger.twinOf(r.id()).isPresent()) {
                continue;
            }
            // A ride said to be an outing of its own is nobody's twin and has none of its own accord.
            partners.getOrDefault(r.id(), List.of()).stream()
                    .filter(p -> !twinOf.containsKey(p.id()))
                    .filter(p -> ledger.twinOf(p.id()).isEmpty())
                    .filter(p -> RICHEST_FIRST.compare(p, r) < 0 || twinOf.containsValue(p.id()))
                    .min(RICHEST_FIRST)
                    .ifPresent(p -> twinOf.put(r.id(), p.id()));
        }
        return twinOf;
    }

    private static String root(Map<String, String> twinOf, String id) {
        String at = id;
        for (int i = 0; i <= twinOf.size() && twinOf.containsKey(at); i++) {
            at = twinOf.getOrDefault(at, at);
        }
        return at;
    }

    private Map<String, List<FiledRide>> partners(List<FiledRide> rides) {
        Map<String, List<FiledRide>> partners = new HashMap<>();
        List<FiledRide> open = new ArrayList<>();
        for (FiledRide r : rides) {
            open.removeIf(o -> !end(o).plus(CLOCKS).isAfter(r.ride().start()));
            for (FiledRide o : open) {
                if (sameOuting(o, r)) {
                    partners.computeIfAbsent(o.id(), k -> new ArrayList<>()).add(r);
                    partners.computeIfAbsent(r.id(), k -> new ArrayList<>()).add(o);
                }
            }
            open.add(r);
        }
        return partners;
    }

    private boolean sameOuting(FiledRide a, FiledRide b) {
        return overlapMostly(a, b) && distancesAgree(a.ride(), b.ride()) && !onDifferentBikes(a, b);
    }

    /** A recording without duration still fills a second. */
    private static Instant end(FiledRide r) {
        Instant atLeast = r.ride().start().plusSeconds(1);
        return r.ride().end().isBefore(atLeast) ? atLeast : r.ride().end();
    }

    private static boolean overlapMostly(FiledRide a, FiledRide b) {
        Instant from = a.ride().start().isAfter(b.ride().start())
                ? a.ride().start()
                : b.ride().start();
        Instant to = end(a).isBefore(end(b)) ? end(a) : end(b);
        // One device has one clock, and cannot record two outings at once.
        double overlap = Duration.between(from, to).toMillis() + (sameDevice(a, b) ? 0 : CLOCKS.toMillis());
        double shorter = Math.min(
                Duration.between(a.ride().start(), end(a)).toMillis(),
                Duration.between(b.ride().start(), end(b)).toMillis());
        return overlap > OVERLAP_SHARE * shorter;
    }

    private static boolean sameDevice(FiledRide a, FiledRide b) {
        return a.ride().devices().stream()
                .filter(d -> d.type().equals("head_unit"))
                .anyMatch(b.ride().devices()::contains);
    }

    /** A device that logged no distance at all disagrees with none. */
    private static boolean distancesAgree(Ride a, Ride b) {
        double longer = Math.max(a.distance().metres(), b.distance().metres());
        double shorter = Math.min(a.distance().metres(), b.distance().metres());
        return shorter == 0 || longer - shorter <= DISTANCE_SHARE * longer;
    }

    private boolean onDifferentBikes(FiledRide a, FiledRide b) {
        Optional<String> bikeA =
                rules.bike(List.of(a)).filter(BikeRules.Choice::certain).map(BikeRules.Choice::bike);
        Optional<String> bikeB =
                rules.bike(List.of(b)).filter(BikeRules.Choice::certain).map(BikeRules.Choice::bike);
        return bikeA.isPresent() && bikeB.isPresent() && !bikeA.equals(bikeB);
    }
}
