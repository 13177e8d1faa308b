package chainage.attribution;

import chainage.ledger.Ledger;
import chainage.ride.FiledRide;
import chainage.ride.Ride.Activity.Kind;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Finds recordings of one outing, so that it counts once. Activities of every sport are held against each other: an
 * untyped copy of a run must not become a ride by its speed.
 *
 * <p>The rider's word holds first. Then, the fullest first, each recording joins the fullest outing that it overlaps by
 * most of the shorter of the two, or stands for one of its own. It is held against what stands for an outing and what the
 * rider said to belong to it, never against what was found to: else recordings that overlap one after the other would
 * all count as the first, however long they go on.
 */
final class Twins {
    /** A recording that covers so much of the longest is as full; our guess, above what two devices differ by. */
    static final double FULL = 0.95;

    /** Of recordings as full: the better format, the whole file, the denser one. */
    static final Comparator<FiledRide> RICHEST_FIRST = Comparator.comparing(
                    (FiledRide r) -> r.ride().format())
            .thenComparing(r -> r.ride().salvaged() != null)
            .thenComparing(r -> -r.ride().effort().samples())
            .thenComparing(r -> r.ride().key().digest().hex())
            .thenComparing(r -> r.ride().key().session());

    /** The one with a distance, then the longest: it holds the others. */
    static final Comparator<FiledRide> FULLEST_FIRST = Comparator.comparing(Twins::hasNoDistance)
            .thenComparing(r -> -Recording.length(r))
            .thenComparing(RICHEST_FIRST);

    private final Ledger ledger;
    private final BikeRules rules;
    private final Map<String, Integer> ties = new HashMap<>();
    private long comparisons;

    Twins(Ledger ledger, BikeRules rules) {
        this.ledger = ledger;
        this.rules = rules;
    }

    /**
     * Which recording repeats which.
     *
     * @param rides all activities, by start
     * @return id of each twin, to the id of the recording that is counted for the outing; that one is no twin itself
     */
    Map<String, String> find(List<FiledRide> rides) {
        List<Recording> fullest = fullest(rides);
        if (fullest.isEmpty()) {
            return Map.of();
        }
        Crowd crowd = new Crowd(fullest);
        Set<Recording> said = stated(fullest);
        for (Recording r : fullest) {
            if (!r.isTwin() && !r.alone) {
                int outing = crowd.outing(r);
                if (outing != Recording.NONE) {
                    r.join(fullest.get(outing));
                } else {
                    r.stand();
                }
            }
        }
        comparisons = crowd.comparisons();
        return twinOf(fullest, said);
    }

    /** Each twin, to what is counted of its outing. */
    private static Map<String, String> twinOf(List<Recording> fullest, Set<Recording> said) {
        Map<Recording, List<FiledRide>> outings = new HashMap<>();
        for (Recording r : fullest) {
            // What the rider said to repeat another is not counted in its place.
            if (!said.contains(r)) {
                outings.computeIfAbsent(r.root(), k -> new ArrayList<>()).add(r.ride);
            }
        }
        Map<Recording, String> counted = new HashMap<>();
        outings.forEach(
                (root, recordings) -> counted.put(root, counted(recordings).id()));
        Map<String, String> twinOf = new HashMap<>();
        for (Recording r : fullest) {
            String of = counted.getOrDefault(r.root(), r.ride.id());
            if (!of.equals(r.ride.id())) {
                twinOf.put(r.ride.id(), of);
            }
        }
        return twinOf;
    }

    /** What the rider states. Of statements that go in a circle the fullest recording's is left out. */
    private Set<Recording> stated(List<Recording> fullest) {
        Map<String, Recording> byId = new HashMap<>();
        fullest.forEach(r -> byId.put(r.ride.id(), r));
        Set<Recording> twins = new HashSet<>();
        for (int i = fullest.size() - 1; i >= 0; i--) {
            Recording r = fullest.get(i);
            Recording of = ledger.twinOf(r.ride.id()).map(byId::get).orElse(null);
            if (of != null && of.root() != r) {
                r.join(of);
                twins.add(r);
                r.stand();
                of.stand();
            }
        }
        return twins;
    }

    /**
     * The recording that is counted of an outing.
     *
     * @param recordings fullest first
     */
    static FiledRide counted(List<FiledRide> recordings) {
        FiledRide longest = recordings.get(0);
        return Collections.min(
                recordings.stream()
                        .filter(r -> hasNoDistance(r) == hasNoDistance(longest)
                                && Recording.length(r) >= FULL * Recording.length(longest))
                        .toList(),
                RICHEST_FIRST);
    }

    private static boolean hasNoDistance(FiledRide r) {
        return r.ride().distance().metres() <= 0;
    }

    /** How often a recording was held against another, or against many at once. */
    long comparisons() {
        return comparisons;
    }

    /** The recordings that overlap others or are spoken of, fullest first; most rides are neither. */
    private List<Recording> fullest(List<FiledRide> rides) {
        Set<String> spokenOf = new HashSet<>(ledger.twins().keySet());
        spokenOf.addAll(ledger.twins().values());
        List<FiledRide> concerned = new ArrayList<>();
        long reach = Long.MIN_VALUE;
        for (int i = 0; i < rides.size(); i++) {
            FiledRide r = rides.get(i);
            boolean overlapsEarlier = start(r) < reach;
            reach = Math.max(reach, Recording.end(r) + Recording.CLOCKS);
            boolean overlapsLater = i + 1 < rides.size() && start(rides.get(i + 1)) < reach;
            if (overlapsEarlier || overlapsLater || spokenOf.contains(r.id())) {
                concerned.add(r);
            }
        }
        concerned.sort(FULLEST_FIRST);
        List<Recording> fullest = new ArrayList<>(concerned.size());
        for (FiledRide r : concerned) {
            boolean alone = ledger.twinOf(r.id()).filter(r.id()::equals).isPresent();
            BikeRules.Choice bike = rules.bike(List.of(r)).orElse(null);
            int number = bike == null ? Recording.UNSAID : ties.computeIfAbsent(bike.bike(), b -> ties.size() + 1);
            boolean tied = bike != null && bike.by() != BikeRules.By.DEFAULT;
            boolean placed = bike != null && bike.by() != BikeRules.By.EVIDENCE;
            fullest.add(new Recording(
                    r,
                    fullest.size(),
                    number(kind(r)),
                    tied ? number : Recording.UNSAID,
                    placed ? number : Recording.UNSAID,
                    alone));
        }
        return fullest;
    }

    private static long start(FiledRide r) {
        return r.ride().start().toEpochMilli();
    }

    private Kind kind(FiledRide r) {
        return ledger.counts(r.id()).orElse(false)
                ? Kind.CYCLING
                : r.ride().activity().kind();
    }

    private static int number(Kind kind) {
        return switch (kind) {
            case UNSTATED -> Recording.UNSAID;
            case CYCLING -> 1;
            case OTHER -> 2;
        };
    }
}
