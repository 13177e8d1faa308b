package chainage.attribution;

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
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/** The rules that name a ride's bike, in the order in which they are tried. */
final class BikeRules {
    /** A bike, and what named it. */
    record Choice(String bike, BikeFrom from) {
        By by() {
            return from instanceof BikeFrom.ByRule r ? By.of(r.when()) : By.EVIDENCE;
        }
    }

    /** What a bike is named by, where rides that overlap are told apart. */
    enum By {
        /** The rider's word, a sensor, a sub-sport: a copy of the file may lack it. */
        EVIDENCE,
        /** The folder or the name: whose files lie elsewhere is another. */
        PATH,
        /** Nothing else speaks. */
        DEFAULT;

        static By of(Rule.When when) {
            return when instanceof Rule.Path ? PATH : when instanceof Rule.Otherwise ? DEFAULT : EVIDENCE;
        }
    }

    private static final List<Class<? extends Rule.When>> ORDER =
            List.of(Rule.Sensor.class, Rule.Path.class, Rule.SubSport.class, Rule.Otherwise.class);

    private final Ledger ledger;
    private final List<OfKind> naming = new ArrayList<>();
    private final List<OfKind> counting = new ArrayList<>();

    BikeRules(Ledger ledger) {
        this.ledger = ledger;
        for (Class<? extends Rule.When> kind : ORDER) {
            add(naming, ledger.rules(kind).filter(r -> r.bike() != null).toList());
            add(counting, ledger.rules(kind).filter(r -> r.counts() != null).toList());
        }
    }

    private static void add(List<OfKind> kinds, List<Rule> rules) {
        if (!rules.isEmpty()) {
            kinds.add(new OfKind(rules));
        }
    }

    /**
     * Rules of one kind, oldest first, each made ready once for all rides. Those on sensors are looked up by what a ride
     * carries: a fleet has one for every bike.
     */
    private static final class OfKind {
        private final List<Rule> rules;
        private final List<Predicate<FiledRide>> ready = new ArrayList<>();
        private final Map<Ride.Device, Integer> bySensor = new HashMap<>();

        OfKind(List<Rule> rules) {
            this.rules = rules;
            for (int i = 0; i < rules.size(); i++) {
                if (rules.get(i).when() instanceof Rule.Sensor s) {
                    bySensor.putIfAbsent(new Ride.Device(s.type(), s.serial()), i);
                } else {
                    ready.add(test(rules.get(i).when()));
                }
            }
        }

        @Nullable
        Rule first(FiledRide ride) {
            if (!bySensor.isEmpty()) {
                int oldest = rules.size();
                for (Ride.Device d : ride.ride().devices()) {
                    oldest = Math.min(oldest, bySensor.getOrDefault(d, oldest));
                }
                return oldest == rules.size() ? null : rules.get(oldest);
            }
            for (int i = 0; i < ready.size(); i++) {
                if (ready.get(i).test(ride)) {
                    return rules.get(i);
                }
            }
            return null;
        }
    }

    /**
     * The bike of an outing: the first rule that speaks for any of its recordings.
     *
     * @param recordings the counted one first, then its twins
     */
    Optional<Choice> bike(List<FiledRide> recordings) {
        for (FiledRide r : recordings) {
            Optional<String> said = ledger.bikeOf(r.id());
            if (said.isPresent()) {
                return Optional.of(new Choice(said.get(), new BikeFrom.Rider()));
            }
        }
        for (FiledRide r : recordings) {
            Optional<String> told = ledger.told(r.id()).map(Event.Told::bike);
            if (told.isPresent()) {
                return Optional.of(new Choice(told.get(), new BikeFrom.Table()));
            }
        }
        for (OfKind kind : naming) {
            for (FiledRide r : recordings) {
                Rule rule = kind.first(r);
                if (rule != null && rule.bike() != null) {
                    return Optional.of(new Choice(rule.bike(), new BikeFrom.ByRule(rule.when())));
                }
            }
        }
        return Optional.empty();
    }

    /** The rule that says whether an activity counts as a ride. */
    Optional<Rule> counting(FiledRide ride) {
        for (OfKind kind : counting) {
            Rule rule = kind.first(ride);
            if (rule != null) {
                return Optional.of(rule);
            }
        }
        return Optional.empty();
    }

    static boolean matches(Rule.When when, FiledRide filed) {
        return test(when).test(filed);
    }

    private static Predicate<FiledRide> test(Rule.When when) {
        if (when instanceof Rule.Sensor sensor) {
            Ride.Device device = new Ride.Device(sensor.type(), sensor.serial());
            return r -> r.ride().devices().contains(device);
        }
        if (when instanceof Rule.Path path) {
            Predicate<String> matches = path.matcher();
            return r -> r.paths().stream().anyMatch(matches);
        }
        if (when instanceof Rule.SubSport subSport) {
            return r -> r.ride().activity().subSport().equals(subSport.word());
        }
        if (when instanceof Rule.Otherwise) {
            return r -> true;
        }
        throw new AssertionError(when);
    }
}
