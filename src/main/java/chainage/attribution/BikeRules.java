package chainage.attribution;

import chainage.ledger.Ledger;
import chainage.ledger.Rule;
import chainage.ride.FiledRide;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.regex.Pattern;

/** The rules that name a ride's bike, in the order in which they are tried. */
final class BikeRules {
    /** A bike and what named it. */
    record Choice(String bike, String from, boolean certain) {}

    private static final List<Class<? extends Rule.When>> ORDER =
            List.of(Rule.Sensor.class, Rule.Path.class, Rule.SubSport.class, Rule.Otherwise.class);

    private final Ledger ledger;

    BikeRules(Ledger ledger) {
        this.ledger = ledger;
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
                return Optional.of(new Choice(said.get(), "rider", true));
            }
        }
        for (Class<? extends Rule.When> kind : ORDER) {
            for (FiledRide r : recordings) {
                Optional<Rule> rule = first(kind, r, x -> x.bike() != null);
                if (rule.isPresent() && rule.get().bike() != null) {
                    return Optional.of(
                            new Choice(rule.get().bike(), rule.get().when().words(), kind == Rule.Sensor.class));
                }
            }
        }
        return Optional.empty();
    }

    /** The rule that says whether an activity counts as a ride. */
    Optional<Rule> counting(FiledRide ride) {
        for (Class<? extends Rule.When> kind : ORDER) {
            Optional<Rule> rule = first(kind, ride, x -> x.counts() != null);
            if (rule.isPresent()) {
                return rule;
            }
        }
        return Optional.empty();
    }

    private Optional<Rule> first(Class<? extends Rule.When> kind, FiledRide ride, Predicate<Rule> says) {
        return ledger.rules(kind)
                .filter(says)
                .filter(rule -> matches(rule.when(), ride))
                .findFirst();
    }

    static boolean matches(Rule.When when, FiledRide filed) {
        if (when instanceof Rule.Sensor sensor) {
            return filed.ride().devices().stream()
                    .anyMatch(d -> d.type().equals(sensor.type()) && d.serial().equals(sensor.serial()));
        }
        if (when instanceof Rule.Path path) {
            Pattern pattern = pattern(path.pattern());
            return filed.paths().stream().anyMatch(p -> pattern.matcher(p).find());
        }
        if (when instanceof Rule.SubSport subSport) {
            return filed.ride().activity().subSport().equals(subSport.word());
        }
        if (when instanceof Rule.Otherwise) {
            return true;
        }
        throw new AssertionError(when);
    }

    /** Whole names between slashes; a {@code *} stays within one name. */
    static Pattern pattern(String glob) {
        StringBuilder regex = new StringBuilder("(?:^|[/!])");
        for (char c : glob.strip().toCharArray()) {
            if (c == '*') {
                regex.append("[^/!]*");
            } else if (c == '?') {
                regex.append("[^/!]");
            } else {
                regex.append(Pattern.quote(String.valueOf(c)));
            }
        }
        String end = glob.endsWith("/") ? "" : "(?:$|[/!])";
        return Pattern.compile(regex + end, Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE);
    }

    static String speedWords(double metresPerSecond) {
        return String.format(Locale.ROOT, "%.0f km/h", metresPerSecond * 3.6);
    }
}
