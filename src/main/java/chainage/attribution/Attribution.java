package chainage.attribution;

import chainage.attribution.AttributedRide.Verdict;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Rule;
import chainage.ride.FiledRide;
import chainage.ride.Ride.Activity.Kind;
import java.util.AbstractList;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Gives every activity its verdict, its bike and its chain. Recordings of one outing are judged together: what the
 * rider, a rule or a file says of one of them holds for all.
 */
public final class Attribution {
    private final Ledger ledger;
    private final BikeRules rules;
    private final Map<String, FiledRide> byId = new HashMap<>();

    private Attribution(Ledger ledger) {
        this.ledger = ledger;
        this.rules = new BikeRules(ledger);
    }

    /**
     * Whether an outing counts.
     *
     * @param guessed true when only its speed decides
     */
    private record Counting(boolean counts, Because because, boolean guessed) {
        Counting(boolean counts, Because because) {
            this(counts, because, false);
        }
    }

    /**
     * Attributes all activities.
     *
     * @param rides by start
     * @return one verdict an activity, in the same order
     */
    public static List<AttributedRide> of(Ledger ledger, List<FiledRide> rides) {
        return new Attribution(ledger).attribute(rides);
    }

    /**
     * The same activities once chains have gone on or come off, which changes no verdict and no bike: each gets its chains
     * when it is looked at.
     */
    public static List<AttributedRide> chained(Ledger ledger, List<AttributedRide> rides) {
        return new AbstractList<>() {
            @Override
            public AttributedRide get(int index) {
                return rides.get(index).chained(ledger);
            }

            @Override
            public int size() {
                return rides.size();
            }
        };
    }

    /** True when a rule's condition holds for an activity. */
    public static boolean matches(Rule.When when, FiledRide ride) {
        return BikeRules.matches(when, ride);
    }

    private List<AttributedRide> attribute(List<FiledRide> rides) {
        Map<String, String> twinOf = new Twins(ledger, rules).find(rides);
        Map<String, List<FiledRide>> twins = new HashMap<>();
        if (!twinOf.isEmpty()) {
            rides.forEach(r -> byId.put(r.id(), r));
        }
        rides.stream()
                .filter(r -> twinOf.containsKey(r.id()))
                .sorted(Twins.RICHEST_FIRST)
                .forEach(r -> twins.computeIfAbsent(twinOf.getOrDefault(r.id(), r.id()), k -> new ArrayList<>())
                        .add(r));
        Map<String, Counting> shared = new HashMap<>();
        for (FiledRide r : rides) {
            if (twins.containsKey(r.id())) {
                shared.put(r.id(), counting(outing(r, twins)));
            }
        }
        List<AttributedRide> verdicts = new ArrayList<>(rides.size());
        for (FiledRide r : rides) {
            String of = twinOf.get(r.id());
            Counting counting = shared.get(of == null ? r.id() : of);
            verdicts.add(verdict(r, counting == null ? counting(List.of(r)) : counting, of, twins));
        }
        return verdicts;
    }

    /** The recording that stands for an outing, then the others, richest first. */
    private static List<FiledRide> outing(FiledRide first, Map<String, List<FiledRide>> twins) {
        List<FiledRide> recordings = new ArrayList<>(List.of(first));
        recordings.addAll(twins.getOrDefault(first.id(), List.of()));
        return recordings;
    }

    private AttributedRide verdict(
            FiledRide r, Counting counting, @Nullable String twinOf, Map<String, List<FiledRide>> twins) {
        if (!counting.counts()) {
            return AttributedRide.uncounted(r, Verdict.NOT_A_RIDE, counting.because(), null);
        }
        if (twinOf != null) {
            Because same = new Because.SameOuting(
                    twinOf, Disagreement.of(r, byId.getOrDefault(twinOf, r)).orElse(null));
            return AttributedRide.uncounted(r, Verdict.TWIN, same, twinOf);
        }
        List<FiledRide> recordings = outing(r, twins);
        Optional<BikeRules.Choice> choice = rules.bike(recordings);
        return new AttributedRide(
                        r,
                        Verdict.COUNTED,
                        counting.because(),
                        counting.guessed(),
                        null,
                        recordings.subList(1, recordings.size()),
                        choice.map(BikeRules.Choice::bike).orElse(null),
                        choice.map(BikeRules.Choice::from).orElse(null),
                        null,
                        List.of(),
                        true)
                .chained(ledger);
    }

    /** The rider's word, then a rule, then a file's word (cycling first), then the speed. */
    private Counting counting(List<FiledRide> recordings) {
        for (FiledRide r : recordings) {
            Optional<Boolean> said = ledger.counts(r.id());
            if (said.isPresent()) {
                return new Counting(said.get(), new Because.Rider());
            }
        }
        for (FiledRide r : recordings) {
            Optional<Rule> rule = rules.counting(r);
            if (rule.isPresent()) {
                return new Counting(
                        Boolean.TRUE.equals(rule.get().counts()),
                        new Because.ByRule(rule.get().when()));
            }
        }
        for (Kind kind : List.of(Kind.CYCLING, Kind.OTHER)) {
            for (FiledRide r : recordings) {
                if (r.ride().activity().kind() == kind) {
                    return new Counting(
                            kind == Kind.CYCLING,
                            new Because.Sport(r.ride().activity().sport()));
                }
            }
        }
        return bySpeed(recordings.get(0).ride().effort().medianSpeed());
    }

    private Counting bySpeed(double speed) {
        if (Double.isNaN(speed)) {
            return new Counting(false, new Because.Still());
        }
        Event.SpeedBandSet band = ledger.speeds();
        boolean cyclist = speed * 3.6 >= band.lowKmh() && speed * 3.6 <= band.highKmh();
        return new Counting(cyclist, new Because.Speed(speed, cyclist), true);
    }
}
