package chainage.cli;

import chainage.answer.ReadingWords;
import chainage.ledger.Event;
import chainage.ledger.Rule;
import chainage.render.Formatter;
import java.util.List;
import java.util.stream.Collectors;

/** Facts in words, one line each. */
final class EventWords {
    private EventWords() {}

    static String of(Event event, Formatter format) {
        if (event instanceof Event.BikeDescribed e) {
            return "bike " + e.bike()
                    + (e.rings().isEmpty() ? "" : ", rings " + teeth(e.rings()))
                    + (e.cogs().isEmpty() ? "" : ", cogs " + teeth(e.cogs()))
                    + (e.circumferenceMetres() == null
                            ? ""
                            : ", wheel " + Formatter.number(e.circumferenceMetres()) + " m")
                    + (e.jockeys().isEmpty() ? "" : ", jockey wheels " + teeth(e.jockeys()))
                    + (e.cassettePrice() == null ? "" : ", cassette " + e.cassettePrice())
                    + (e.ringsPrice() == null ? "" : ", rings " + e.ringsPrice());
        } else if (event instanceof Event.ChainDescribed e) {
            return "chain " + e.chain()
                    + (e.speeds() == 0 ? "" : ", " + e.speeds() + " speeds")
                    + (e.pitches() == 0 ? "" : ", " + e.pitches() + " pitches")
                    + (e.limitPercent() == null ? "" : ", limit " + Formatter.number(e.limitPercent()) + " %")
                    + (e.price() == null ? "" : ", " + e.price());
        } else if (event instanceof Event.ProductDescribed e) {
            return "product " + e.product() + ", " + e.method().words()
                    + (e.price() == null ? "" : ", " + e.price())
                    + (e.packageMillilitres() == null ? "" : " for " + Formatter.number(e.packageMillilitres()) + " ml")
                    + (e.treatmentMillilitres() == null
                            ? ""
                            : ", " + Formatter.number(e.treatmentMillilitres()) + " ml a treatment")
                    + (e.treatmentMinutes() == null ? "" : ", " + Formatter.number(e.treatmentMinutes()) + " minutes");
        } else if (event instanceof Event.Bought e) {
            return Formatter.count(e.packages(), "package", "packages") + " of " + e.product() + " bought, "
                    + format.date(e.at());
        } else if (event instanceof Event.Installed e) {
            return e.chain() + " on " + e.bike() + " from " + format.time(e.at());
        } else if (event instanceof Event.Removed e) {
            return e.chain() + " off its bike from " + format.time(e.at());
        } else if (event instanceof Event.Treated e) {
            return e.chain() + " treated with " + e.product() + ", " + format.time(e.at());
        } else if (event instanceof Event.Measured e) {
            return e.chain() + ": " + ReadingWords.of(e.reading()) + ", " + format.time(e.at());
        } else if (event instanceof Event.Remarked e) {
            return e.chain() + ": " + e.remark().word() + (e.words().isEmpty() ? "" : ", \"" + e.words() + "\"") + ", "
                    + format.time(e.at());
        } else if (event instanceof Event.Tagged e) {
            return rides(e.rides()) + " tagged " + new Tags(e.moisture(), e.share(), e.grit()).words();
        } else if (event instanceof Event.Untagged e) {
            return rides(e.rides()) + ": flags withdrawn";
        } else if (event instanceof Event.RidesAssigned e) {
            return rides(e.rides()) + (e.bike() == null ? ": bike withdrawn" : " on " + e.bike());
        } else if (event instanceof Event.RidesCounted e) {
            return rides(e.rides())
                    + (e.counts() == null ? ": verdict withdrawn" : e.counts() ? ": a ride" : ": not a ride");
        } else if (event instanceof Event.TwinStated e) {
            return "ride " + e.ride()
                    + (e.of() == null
                            ? ": word on twins withdrawn"
                            : e.of().equals(e.ride()) ? ": an outing of its own" : ": the same outing as " + e.of());
        } else if (event instanceof Event.RuleSet e) {
            return "rule: " + rule(e.rule());
        } else if (event instanceof Event.RuleDropped e) {
            return "rule withdrawn: " + e.when().words();
        } else if (event instanceof Event.SpeedBandSet e) {
            return "unstated sport counts as a ride from " + Formatter.number(e.lowKmh()) + " to "
                    + Formatter.number(e.highKmh()) + " km/h";
        } else if (event instanceof Event.WeatherAdded e) {
            return Formatter.count(e.observations(), "weather record", "weather records") + " from " + e.source()
                    + (e.stations().isEmpty() ? "" : ", " + String.join(", ", e.stations())) + ", "
                    + format.date(e.from()) + " to " + format.date(e.to());
        } else if (event instanceof Event.RoadWordSet e) {
            return "word \"" + e.word() + "\" says "
                    + (e.meaning() == null
                            ? "what the list says"
                            : e.meaning().equals("none") ? "nothing" : e.meaning());
        } else if (event instanceof Event.FactorSet e) {
            return "factor " + e.key() + (e.value() == null ? ": the table's value" : " = " + FactorsCommand.figure(e));
        } else if (event instanceof Event.Renamed e) {
            return e.what().word() + " " + e.from() + " renamed " + e.to();
        } else if (event instanceof Event.ChainsMerged e) {
            return "chain " + e.chain() + " merged into " + e.into();
        } else if (event instanceof Event.Redated e) {
            return "entry " + e.target() + " dated " + format.time(e.to());
        } else if (event instanceof Event.Undone e) {
            return "entry " + e.target() + " taken back";
        }
        throw new AssertionError(event);
    }

    private static String teeth(List<Integer> counts) {
        return counts.stream().map(String::valueOf).collect(Collectors.joining("/"));
    }

    private static String rule(Rule rule) {
        return rule.when().words() + " → "
                + (rule.bike() != null ? rule.bike() : Boolean.TRUE.equals(rule.counts()) ? "a ride" : "not a ride");
    }

    private static String rides(List<String> ids) {
        return ids.size() == 1 ? "ride " + ids.get(0) : ids.size() + " rides";
    }
}
