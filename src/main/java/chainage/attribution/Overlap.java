package chainage.attribution;

import chainage.ledger.Ledger;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Two counted rides of one bike that overlap, though a bike cannot be ridden twice at one time: recordings that share
 * too little to be found one outing, or that the rider says are two.
 *
 * @param first the one that began first
 * @param second the other
 * @param time in which both were recorded, more than the minute by which clocks may differ
 * @param stated whether the rider says that one of them is an outing of its own
 */
public record Overlap(AttributedRide first, AttributedRide second, Duration time, boolean stated) {
    /**
     * All of them, by the start of the second.
     *
     * @param rides every activity with its verdict, by start
     */
    public static List<Overlap> of(Ledger ledger, List<AttributedRide> rides) {
        List<Overlap> found = new ArrayList<>();
        Map<String, List<AttributedRide>> underWay = new HashMap<>();
        for (AttributedRide r : rides) {
            String bike = r.bike();
            if (!r.counted() || bike == null) {
                continue;
            }
            List<AttributedRide> before = underWay.computeIfAbsent(bike, b -> new ArrayList<>());
            before.removeIf(b -> !overlap(b, r));
            for (AttributedRide b : before) {
                found.add(new Overlap(b, r, time(b, r), isAlone(ledger, b) || isAlone(ledger, r)));
            }
            before.add(r);
        }
        return found;
    }

    private static boolean isAlone(Ledger ledger, AttributedRide r) {
        return ledger.twinOf(r.id()).filter(r.id()::equals).isPresent();
    }

    private static boolean overlap(AttributedRide a, AttributedRide later) {
        return end(a).toEpochMilli() - later.filed().ride().start().toEpochMilli() > Recording.CLOCKS;
    }

    private static Duration time(AttributedRide a, AttributedRide later) {
        Instant end = end(a).isBefore(end(later)) ? end(a) : end(later);
        return Duration.between(later.filed().ride().start(), end);
    }

    private static Instant end(AttributedRide r) {
        return r.filed().ride().end();
    }
}
