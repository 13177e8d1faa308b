package chainage.answer.things;

import chainage.analysis.Analysis;
import chainage.attribution.AttributedRide;
import chainage.ledger.Rule;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import chainage.render.Unit;
import chainage.ride.Ride;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * The rules that say which bike rides were on, and the sensors that could say it.
 *
 * @param rules oldest first
 * @param sensors by name
 */
public record RulesAnswer(List<Rule> rules, List<Sensor> sensors, Formatter format) implements Answer {
    /**
     * A sensor that stays with a bike.
     *
     * @param name kind and serial
     * @param rides that it took part in
     * @param first when the first of them began
     * @param last when the last of them did
     * @param bike that a rule ties it to; null for none
     */
    public record Sensor(
            String name,
            int rides,
            Instant first,
            Instant last,
            @Nullable String bike) {}

    private static final Columns<Rule> RULES = Columns.of(
            Column.<Rule>name("when", "what the rides must show", r -> r.when().words())
                    .head("RIDES THAT SHOW")
                    .as((r, format) -> r.when() instanceof Rule.Otherwise
                            ? "none of these"
                            : r.when().words()),
            Column.<Rule>name("bike", "they were on; null when it says only whether they count", Rule::bike),
            Column.truth("counts", "whether they are rides; null when it says only the bike", Rule::counts),
            Column.shown("ARE ON", Unit.NAME, (r, format) -> {
                String bike = r.bike();
                return bike != null ? bike : Boolean.TRUE.equals(r.counts()) ? "rides" : "not rides";
            }));

    private static final Columns<Sensor> SENSORS = Columns.of(
            Column.<Sensor>name("sensor", "kind and serial", Sensor::name).head("SENSOR SEEN"),
            Column.<Sensor>count("rides", "that it took part in", Sensor::rides).head("RIDES"),
            Column.<Sensor>time("first", "when the first of them began", Sensor::first)
                    .head("FIRST DAY")
                    .as((s, format) -> format.date(s.first())),
            Column.<Sensor>time("last", "when the last of them did", Sensor::last)
                    .head("LAST DAY")
                    .as((s, format) -> format.date(s.last())),
            Column.<Sensor>name("bike", "that a rule ties it to", Sensor::bike).head("TIED TO"));

    /** What scripts get. */
    public static final Columns<RulesAnswer> FIELDS = Columns.of(
            Column.<RulesAnswer, Rule>rows("rules", "oldest first", RULES, RulesAnswer::rules),
            Column.rows("sensors", "by name", SENSORS, RulesAnswer::sensors));

    public static RulesAnswer of(Analysis analysis, Formatter format) {
        Map<Ride.Device, List<Instant>> seen = new TreeMap<>(Comparator.comparing(Ride.Device::name));
        for (AttributedRide r : analysis.rides()) {
            if (r.counted()) {
                r.filed().ride().devices().stream()
                        .filter(Ride.Device::staysWithBike)
                        .forEach(d -> seen.computeIfAbsent(d, k -> new ArrayList<>())
                                .add(r.filed().ride().start()));
            }
        }
        return new RulesAnswer(
                analysis.ledger().rules(),
                seen.entrySet().stream()
                        .map(e -> new Sensor(
                                e.getKey().name(),
                                e.getValue().size(),
                                Collections.min(e.getValue()),
                                Collections.max(e.getValue()),
                                tied(analysis, e.getKey())))
                        .toList(),
                format);
    }

    private static @Nullable String tied(Analysis analysis, Ride.Device d) {
        for (Rule r : analysis.ledger().rules()) {
            if (r.when().equals(new Rule.Sensor(d.type(), d.serial()))) {
                return r.bike();
            }
        }
        return null;
    }

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        if (rules.isEmpty()) {
            out.line("No rules yet. The first bike you add takes all rides: chainage bike add NAME");
        } else {
            out.table(RULES.table(rules, format));
        }
        if (!sensors.isEmpty()) {
            out.line();
            out.table(SENSORS.table(sensors, format));
        }
    }
}
