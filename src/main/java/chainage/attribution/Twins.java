package chainage.attribution;

import chainage.ledger.Ledger;
import chainage.ride.FiledRide;
import chainage.ride.Ride;
import chainage.ride.Ride.Activity.Kind;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/**
 * Finds recordings of one outing, so that it counts once. Activities of every sport are held against each other: an
 * untyped copy of a run must not become a ride by its speed.
 */
final class Twins {
    /** Distances of twins agree within this share of the longer; our guess, wide enough for a wheel size set wrong. */
    private static final double DISTANCE_SHARE = 0.05;
    /** Twins overlap by more than this share of the shorter; our guess for "most of it". */
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
    private final Map<String, List<FiledRide>> partners = new HashMap<>();
    private final Map<String, List<FiledRide>> wholes = new HashMap<>();
    private final Map<String, String> twinOf = new HashMap<>();
    private final Map<String, FiledRide> byId = new HashMap<>();

    Twins(Ledger ledger, BikeRules rules) {
        this.ledger = ledger;
        this.rules = rules;
    }

    /**
     * Which recording repeats which.
     *
     * @param rides all activities, by start
     * @return id of each twin, to the id of the recording that stands for the outing; that one is no twin itself
     */
    Map<String, String> find(List<FiledRide> rides) {
        pair(rides);
        Set<String> spokenOf = new HashSet<>(ledger.twins().keySet());
        spokenOf.addAll(ledger.twins().values());
        // Most rides overlap none and are spoken of by nobody, and nothing below is about them.
        List<FiledRide> richest = rides.stream()
                .filter(r -> partners.containsKey(r.id()) || wholes.containsKey(r.id()) || spokenOf.contains(r.id()))
                .sorted(RICHEST_FIRST)
                .toList();
        richest.forEach(r -> byId.put(r.id(), r));
        // What the rider states holds first. Of statements that go in a circle the richest recording's is left out.
        for (int i = richest.size() - 1; i >= 0; i--) {
            String id = richest.get(i).id();
            ledger.twinOf(id)
                    .filter(byId::containsKey)
                    .filter(of -> !root(of).equals(id))
                    .ifPresent(of -> twinOf.put(id, of));
        }
        for (FiledRide r : richest) {
            if (!twinOf.containsKey(r.id()) && !saidToBeAlone(r)) {
                candidates(r).min(RICHEST_FIRST).ifPresent(p -> twinOf.put(r.id(), p.id()));
            }
        }
        twinOf.replaceAll((id, of) -> root(of));
        return twinOf;
    }

    /** The recordings that a ride may be the twin of, each standing for its outing. */
    private Stream<FiledRide> candidates(FiledRide r) {
        Stream<FiledRide> richer = partners.getOrDefault(r.id(), List.of()).stream()
                .filter(p -> RICHEST_FIRST.compare(p, r) < 0 || twinOf.containsValue(p.id()));
        return Stream.concat(wholes.getOrDefault(r.id(), List.of()).stream(), richer)
                .filter(p -> !saidToBeAlone(p))
                .map(p -> byId.getOrDefault(root(p.id()), p))
                .filter(p -> !p.id().equals(r.id()) && !saidToBeAlone(p) && !onDifferentBikes(p, r));
    }

    /** A ride said to be an outing of its own is nobody's twin, and has none but by the rider's word. */
    private boolean saidToBeAlone(FiledRide r) {
        return ledger.twinOf(r.id()).filter(r.id()::equals).isPresent();
    }

    private String root(String id) {
        String at = id;
        for (String next = twinOf.get(at); next != null; next = twinOf.get(at)) {
            at = next;
        }
        return at;
    }

    private void pair(List<FiledRide> rides) {
        List<FiledRide> open = new ArrayList<>();
        for (FiledRide r : rides) {
            for (int i = open.size() - 1; i >= 0; i--) {
                if (!end(open.get(i)).plus(CLOCKS).isAfter(r.ride().start())) {
                    open.remove(i);
                }
            }
            for (FiledRide o : open) {
                if (differentSports(o, r) || onDifferentBikes(o, r)) {
                    continue;
                }
                if (overlapMostly(o, r) && distancesAgree(o.ride(), r.ride())) {
                    put(partners, o, r);
                    put(partners, r, o);
                } else if (brokeOff(o, r)) {
                    put(wholes, o, r);
                } else if (brokeOff(r, o)) {
                    put(wholes, r, o);
                }
            }
            open.add(r);
        }
    }

    private static void put(Map<String, List<FiledRide>> map, FiledRide of, FiledRide other) {
        map.computeIfAbsent(of.id(), k -> new ArrayList<>()).add(other);
    }

    /** What one file calls cycling and the other something else is not one outing, unless the rider says otherwise. */
    private boolean differentSports(FiledRide a, FiledRide b) {
        Kind kindA = kind(a);
        Kind kindB = kind(b);
        return kindA != Kind.UNSTATED && kindB != Kind.UNSTATED && kindA != kindB;
    }

    private Kind kind(FiledRide r) {
        return ledger.counts(r.id()).orElse(false)
                ? Kind.CYCLING
                : r.ride().activity().kind();
    }

    /** True when one is a salvaged recording of which the other holds more: a copy that was cut short, say. */
    private static boolean brokeOff(FiledRide part, FiledRide whole) {
        return part.ride().salvaged() != null
                && part.ride().distance().metres() < whole.ride().distance().metres()
                && !part.ride().start().isBefore(whole.ride().start().minus(CLOCKS))
                && !end(part).isAfter(end(whole).plus(CLOCKS));
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
        double slack = oneClock(a, b) ? 0 : CLOCKS.toMillis();
        double overlap = Duration.between(from, to).toMillis() + slack;
        double shorter = Math.min(
                Duration.between(a.ride().start(), end(a)).toMillis(),
                Duration.between(b.ride().start(), end(b)).toMillis());
        return overlap > OVERLAP_SHARE * shorter;
    }

    /** One device has one clock, and so has one file. */
    private static boolean oneClock(FiledRide a, FiledRide b) {
        return a.ride().key().digest().equals(b.ride().key().digest())
                || a.ride().devices().stream()
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
        Optional<String> bikeA = tied(a);
        Optional<String> bikeB = tied(b);
        return bikeA.isPresent() && bikeB.isPresent() && !bikeA.equals(bikeB);
    }

    private Optional<String> tied(FiledRide r) {
        return rules.bike(List.of(r)).filter(BikeRules.Choice::certain).map(BikeRules.Choice::bike);
    }
}
