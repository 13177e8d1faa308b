package chainage.answer.things;

import chainage.analysis.Analysis;
import chainage.attribution.AttributedRide;
import chainage.attribution.Attribution;
import chainage.ledger.Rule;
import chainage.quantity.PlainText;
import chainage.ride.Ride;
import java.util.ArrayList;
import java.util.List;

/** What is said of rules that give rides to bikes. */
public final class RuleWords {
    private RuleWords() {}

    /** What may be wrong with a rule that fits no ride; nothing where it fits one. */
    public static List<String> unfit(Analysis before, Rule.When when) {
        return before.rides().stream().anyMatch(r -> Attribution.matches(when, r.filed()))
                ? List.of()
                : List.of(nearly(before, when));
    }

    /** Why a rule fits nothing: perhaps because the name it gives is only part of a file's. */
    private static String nearly(Analysis before, Rule.When when) {
        if (when instanceof Rule.Path p && !p.pattern().contains("*")) {
            Rule.Path part = new Rule.Path("*" + p.pattern() + "*");
            long files = before.rides().stream()
                    .filter(r -> Attribution.matches(part, r.filed()))
                    .count();
            if (files > 0) {
                return "no folder or file has exactly this name; "
                        + (files == 1 ? "that of 1 ride contains it" : "those of " + files + " rides contain it")
                        + ": --path " + PlainText.typed(part.pattern());
            }
        }
        return "no ride fits it yet; those to come will";
    }

    /** Rules that would have spared the rider this command. */
    public static List<String> offers(Analysis before, List<AttributedRide> rides, String bike) {
        List<String> offers = new ArrayList<>();
        for (AttributedRide r : rides) {
            // Where a sensor speaks for another bike this ride is an exception, and its other sensors prove nothing.
            boolean exception = before.ledger()
                    .rules(Rule.Sensor.class)
                    .anyMatch(x ->
                            x.bike() != null && !x.bike().equals(bike) && Attribution.matches(x.when(), r.filed()));
            if (exception) {
                continue;
            }
            for (Ride.Device d : r.filed().ride().devices()) {
                boolean known = before.ledger()
                        .rules(Rule.Sensor.class)
                        .anyMatch(x -> x.when().equals(new Rule.Sensor(d.type(), d.serial())));
                String offer = "for every ride with this sensor: chainage assign --sensor " + d.name() + " --bike "
                        + PlainText.typed(bike);
                if (d.staysWithBike() && !known && !offers.contains(offer)) {
                    offers.add(offer);
                }
            }
        }
        return offers;
    }
}
