package chainage.analysis;

import chainage.attribution.AttributedRide;
import chainage.condition.Condition;
import chainage.exposure.RideExposure;
import chainage.ledger.Ledger;
import chainage.standing.Standing;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** One thing that differs between two analyses of the same rides. */
public sealed interface Change {
    /** Where a ride counts. */
    sealed interface Place {
        /** It repeats another. */
        record Twin() implements Place {}

        /** It counts nowhere. */
        record NotARide() implements Place {}

        /** A chain ran it. */
        record OnChain(String chain) implements Place {}

        /**
         * No chain ran it.
         *
         * @param bike null for none
         */
        record Bare(@Nullable String bike) implements Place {}

        static Place of(AttributedRide ride) {
            String chain = ride.chain();
            return switch (ride.verdict()) {
                case TWIN -> new Twin();
                case NOT_A_RIDE -> new NotARide();
                case COUNTED -> chain == null ? new Bare(ride.bike()) : new OnChain(chain);
            };
        }
    }

    /**
     * Rides that went from one place to another.
     *
     * @param rides how many
     * @param metres as they count for a chain; of twins and no rides, as they counted before
     */
    record RidesMoved(Place was, Place now, int rides, double metres) implements Change {}

    /**
     * What is left of a treatment differs, or whether it is due.
     *
     * @param learnt true where what was said concerns other chains, and only what is known of lives moved this one
     */
    record Treatment(Standing was, Standing now, boolean learnt) implements Change {
        private static final double NOTEWORTHY_METRES = 50;
        /** Every life teaches about every product: what moves a limit by less is not worth a line. */
        private static final double NOTEWORTHY_SHARE = 0.01;

        /** True when enough of what is left differs to speak of. */
        public boolean left() {
            return Math.abs(was.treatment().dueInMetres() - now.treatment().dueInMetres())
                    >= Math.max(
                            NOTEWORTHY_METRES,
                            NOTEWORTHY_SHARE * was.treatment().limitMetres());
        }

        /** True when it came due, or is due no more. */
        public boolean due() {
            return was.treatment().used() < 1 != now.treatment().used() < 1;
        }
    }

    /**
     * A chain's elongation differs, or it was read.
     *
     * @param read true where a reading of it came or went, so that one asks what has become of it
     */
    record Elongation(Standing was, Standing now, boolean read) implements Change {
        private static final double NOTEWORTHY_PERCENT = 0.005;

        boolean noteworthy() {
            return read
                    || Math.abs(was.wear().elongationPercent().likely()
                                    - now.wear().elongationPercent().likely())
                            >= NOTEWORTHY_PERCENT;
        }
    }

    /** A chain has come to its limit. */
    record Replace(String chain) implements Change {}

    /** A chain is no longer among those that stand anywhere. */
    record OutOfUse(String chain) implements Change {}

    /** Something stated does not fit, which was not so before. */
    record Doubted(Outlier outlier) implements Change {}

    /** All that differs: rides, then chains, then doubts. */
    static List<Change> between(Analysis before, Analysis after) {
        List<Change> changes = new ArrayList<>(rides(before, after));
        Ledger stated = before.facts();
        Ledger now = after.facts();
        boolean sameFactors = before.ledger().factors().equals(after.ledger().factors());
        for (Standing s : after.standings()) {
            String chain = s.chain();
            before.standing(chain).ifPresent(was -> {
                boolean read = !stated.readings(chain).equals(now.readings(chain));
                chain(was, s, sameFactors && untouched(was, s), read, changes);
            });
        }
        for (Standing was : before.standings()) {
            if (after.standing(was.chain()).isEmpty()) {
                changes.add(new OutOfUse(was.chain()));
            }
        }
        List<Outlier> doubted = Outlier.all(after);
        // Of other chains nothing would be told, whatever was doubted before.
        Set<String> chains = doubted.stream().map(Outlier::chain).collect(Collectors.toSet());
        chains.retainAll(before.ledger().chains().keySet());
        Set<Object> known = new HashSet<>();
        Outlier.of(before, chains).forEach(o -> known.add(o.about()));
        doubted.stream().filter(o -> !known.contains(o.about())).forEach(o -> changes.add(new Doubted(o)));
        return changes;
    }

    private static List<RidesMoved> rides(Analysis before, Analysis after) {
        Map<String, Place> places = new HashMap<>();
        before.rides().forEach(r -> places.put(r.id(), Place.of(r)));
        Map<List<Place>, RidesMoved> moved = new LinkedHashMap<>();
        for (AttributedRide r : after.rides()) {
            Place was = places.get(r.id());
            Place now = Place.of(r);
            if (was != null && !was.equals(now)) {
                double metres = (r.counted() ? after : before).exposures().metresOf(r);
                moved.merge(
                        List.of(was, now),
                        new RidesMoved(was, now, 1, metres),
                        (a, b) -> new RidesMoved(was, now, a.rides() + 1, a.metres() + b.metres()));
            }
        }
        return List.copyOf(moved.values());
    }

    /** True where all that is said of this chain's own treatment is as before. */
    private static boolean untouched(Standing was, Standing now) {
        return roads(was).equals(roads(now))
                && Objects.equals(was.treatment().noisy(), now.treatment().noisy())
                && Objects.equals(was.exposure().treatedAt(), now.exposure().treatedAt())
                && was.exposure().product().equals(now.exposure().product());
    }

    /** What was ridden on the treatment, whatever it counts. */
    private static List<Object> roads(Standing s) {
        List<Object> roads = new ArrayList<>();
        for (RideExposure r : s.exposure().sinceTreatment()) {
            Condition c = r.condition();
            roads.add(List.of(r.ride().id(), r.metres().metres(), c.wetShare(), c.dampShare(), c.grit()));
        }
        return roads;
    }

    private static void chain(Standing was, Standing now, boolean learnt, boolean read, List<Change> changes) {
        Treatment treatment = new Treatment(was, now, learnt);
        if (treatment.left() || treatment.due()) {
            changes.add(treatment);
        }
        Elongation elongation = new Elongation(was, now, read);
        if (elongation.noteworthy()) {
            changes.add(elongation);
        }
        if (now.wear().used() >= 1 && was.wear().used() < 1) {
            changes.add(new Replace(now.chain()));
        }
    }
}
