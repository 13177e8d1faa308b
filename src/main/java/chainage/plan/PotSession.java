package chainage.plan;

import chainage.ledger.Event;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/**
 * Chains treated in one go at one pot.
 *
 * @param by the latest moment that is in time for all of them
 * @param product in the pot
 * @param treatments the chains, the soonest to be late first
 */
public record PotSession(Instant by, Event.ProductDescribed product, List<PlannedTreatment> treatments) {
    public PotSession {
        treatments = List.copyOf(treatments);
    }

    /**
     * The fewest sessions that serve every chain in time and none before it is worthwhile. Each is as late as its most
     * urgent chain allows, for then the most others have become worthwhile; that no fewer will do follows from it: the
     * most urgent chains of the sessions share no moment. Chains without a date join the first session, and call for one
     * of their own only when one of them cannot be ridden as it is.
     *
     * @param treatments of one product
     * @param until sessions whose most urgent chain has time beyond this are left for later
     */
    static List<PotSession> of(List<PlannedTreatment> treatments, Instant at, Instant until) {
        List<PlannedTreatment> open = new ArrayList<>(
                treatments.stream().sorted(PlannedTreatment.SOONEST_FIRST).toList());
        List<PotSession> sessions = new ArrayList<>();
        while (!open.isEmpty()) {
            PlannedTreatment urgent = open.get(0);
            Instant by = urgent.cautious();
            if (by == null) {
                if (open.stream().noneMatch(n -> n.used() >= 1)) {
                    break;
                }
                by = at;
            }
            if (by.isAfter(until)) {
                break;
            }
            Instant when = by;
            List<PlannedTreatment> served =
                    open.stream().filter(n -> !n.from().isAfter(when)).toList();
            sessions.add(new PotSession(by, urgent.product(), served));
            open.removeAll(served);
        }
        return sessions;
    }

    /**
     * Minutes of work when each chain is treated by itself.
     *
     * @param minutes of one treatment
     */
    public double oneByOne(double minutes) {
        return minutes * treatments.size();
    }

    /**
     * Minutes of work in one session.
     *
     * @param minutes of one treatment
     * @param fixed share of them that is spent once, however many chains there are, 0 to 1
     */
    public double together(double minutes, double fixed) {
        return minutes * (fixed + (1 - fixed) * treatments.size());
    }
}
