package chainage.attribution;

import chainage.ledger.Ledger;
import chainage.ride.FiledRide;
import chainage.ride.Ride.Activity.Kind;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Finds recordings of one outing, so that it counts once. Activities of every sport are held against each other: an
 * untyped copy of a run must not become a ride by its speed.
 */
final class Twins {
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
     * @return id of each twin, to the id of the recording that stands for the outing; that one is no twin itself
     */
    Map<String, String> find(List<FiledRide> rides) {
        List<Recording> richest = richest(rides);
        if (richest.isEmpty()) {
            return Map.of();
        }
        Crowd crowd = new Crowd(richest);
        Map<String, Recording> byId = new HashMap<>();
        richest.forEach(r -> byId.put(r.ride.id(), r));
        // What the rider states holds first. Of statements that go in a circle the richest recording's is left out.
        for (int i = richest.size() - 1; i >= 0; i--) {
            Recording r = richest.get(i);
            Recording of = ledger.twinOf(r.ride.id()).map(byId::get).orElse(null);
            if (of != null && of.root() != r) {
                r.join(of);
            }
        }
        for (Recording r : richest) {
            if (!r.isTwin() && !r.alone) {
                int outing = crowd.outing(r);
                if (outing != Recording.NONE) {
                    r.join(richest.get(outing));
                }
            }
            r.offer();
        }
        comparisons = crowd.comparisons();
        Map<String, String> twinOf = new HashMap<>();
        for (Recording r : richest) {
            if (r.isTwin()) {
                twinOf.put(r.ride.id(), r.root().ride.id());
            }
        }
        return twinOf;
    }

    /** How often a recording was held against another, or against many at once. */
    long comparisons() {
        return comparisons;
    }

    /** The recordings that overlap others or are spoken of, richest first; most rides are neither. */
    private List<Recording> richest(List<FiledRide> rides) {
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
        concerned.sort(RICHEST_FIRST);
        List<Recording> richest = new ArrayList<>(concerned.size());
        for (FiledRide r : concerned) {
            boolean alone = ledger.twinOf(r.id()).filter(r.id()::equals).isPresent();
            richest.add(new Recording(r, richest.size(), apart(kind(r)), tie(r), alone));
        }
        return richest;
    }

    private static long start(FiledRide r) {
        return r.ride().start().toEpochMilli();
    }

    private Kind kind(FiledRide r) {
        return ledger.counts(r.id()).orElse(false)
                ? Kind.CYCLING
                : r.ride().activity().kind();
    }

    /** Two apart are of different sports; the unstated lies between. */
    private static int apart(Kind kind) {
        return switch (kind) {
            case CYCLING -> 0;
            case UNSTATED -> 1;
            case OTHER -> 2;
        };
    }

    private int tie(FiledRide r) {
        return rules.bike(List.of(r))
                .filter(BikeRules.Choice::certain)
                .map(c -> ties.computeIfAbsent(c.bike(), b -> ties.size() + 1))
                .orElse(Recording.UNTIED);
    }
}
