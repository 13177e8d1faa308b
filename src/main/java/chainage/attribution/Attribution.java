package chainage.attribution;

import chainage.attribution.AttributedRide.Verdict;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Rule;
import chainage.ride.FiledRide;
import chainage.ride.Ride;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** Gives every activity its verdict, its bike and its chain. */
public final class Attribution {
    private final Ledger ledger;
    private final BikeRules rules;

    private Attribution(Ledger ledger) {
        this.ledger = ledger;
        this.rules = new BikeRules(ledger);
    }

    private record Counting(boolean counts, String because) {}

    /**
     * Attributes all activities.
     *
     * @param rides by start
     * @return one verdict an activity, in the same order
     */
    public static List<AttributedRide> of(Ledger ledger, List<FiledRide> rides) {
        return new Attribution(ledger).attribute(rides);
    }

    private List<AttributedRide> attribute(List<FiledRide> rides) {
        List<Counting> counting = rides.stream().map(this::counting).toList();
        List<FiledRide> candidates = new ArrayList<>();
        for (int i = 0; i < rides.size(); i++) {
            if (counting.get(i).counts()) {
                candidates.add(rides.get(i));
            }
        }
        Map<String, String> twinOf = new Twins(ledger, rules).find(candidates);
        Map<String, List<FiledRide>> twins = new HashMap<>();
        candidates.stream().sorted(Twins.RICHEST_FIRST).forEach(r -> {
            String of = twinOf.get(r.id());
            if (of != null) {
                twins.computeIfAbsent(of, k -> new ArrayList<>()).add(r);
            }
        });
        List<AttributedRide> verdicts = new ArrayList<>(rides.size());
        for (int i = 0; i < rides.size(); i++) {
            FiledRide r = rides.get(i);
            verdicts.add(verdict(r, counting.get(i), twinOf.get(r.id()), twins.getOrDefault(r.id(), List.of())));
        }
        return verdicts;
    }

    private AttributedRide verdict(FiledRide r, Counting counting, @Nullable String twinOf, List<FiledRide> twins) {
        if (!counting.counts()) {
            return new AttributedRide(r, Verdict.NOT_A_RIDE, counting.because(), null, List.of(), null, null, null);
        }
        if (twinOf != null) {
            return new AttributedRide(
                    r, Verdict.TWIN, "the same outing as " + twinOf, twinOf, List.of(), null, null, null);
        }
        List<FiledRide> recordings = new ArrayList<>(List.of(r));
        recordings.addAll(twins);
        Optional<BikeRules.Choice> choice = rules.bike(recordings);
        String bike = choice.map(BikeRules.Choice::bike).orElse(null);
        return new AttributedRide(
                r,
                Verdict.COUNTED,
                counting.because(),
                null,
                twins,
                bike,
                choice.map(BikeRules.Choice::from).orElse(null),
                bike == null ? null : ledger.installedOn(bike, r.ride().start()).orElse(null));
    }

    /** The rider's word, then a rule, then the file's word, then the speed. */
    private Counting counting(FiledRide filed) {
        Optional<Boolean> said = ledger.counts(filed.id());
        if (said.isPresent()) {
            return new Counting(said.get(), "the rider says so");
        }
        Optional<Rule> rule = rules.counting(filed);
        if (rule.isPresent()) {
            return new Counting(
                    Boolean.TRUE.equals(rule.get().counts()),
                    "rule: " + rule.get().when().words());
        }
        Ride ride = filed.ride();
        Ride.Activity activity = ride.activity();
        String sport = activity.sport();
        if (activity.kind() == Ride.Activity.Kind.CYCLING) {
            return new Counting(true, "the file says " + sport);
        }
        if (activity.kind() == Ride.Activity.Kind.OTHER) {
            return new Counting(false, "the file says " + sport);
        }
        double speed = ride.effort().medianSpeed();
        if (Double.isNaN(speed)) {
            return new Counting(false, "no sport stated, and nothing moved");
        }
        Event.SpeedBandSet band = ledger.speeds();
        boolean cyclist = speed * 3.6 >= band.lowKmh() && speed * 3.6 <= band.highKmh();
        return new Counting(
                cyclist,
                "no sport stated; median moving speed " + BikeRules.speedWords(speed)
                        + (cyclist ? " is a cyclist's" : " is not a cyclist's"));
    }
}
