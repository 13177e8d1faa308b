package chainage.answer.things;

import chainage.analysis.Analysis;
import chainage.answer.EventWords;
import chainage.attribution.AttributedRide;
import chainage.ledger.Event;
import chainage.ledger.MeterPlace;
import chainage.meter.Meters;
import chainage.meter.RidePairs;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import chainage.render.Unit;
import chainage.ride.Ride;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * The power meters that files name, and which of them were on one ride.
 *
 * @param meters by name
 * @param together pairs of them, with the number of rides that hold power of both
 * @param untold recordings with power whose meter cannot be told
 */
public record MeterList(List<Meter> meters, List<Together> together, long untold, Formatter format) implements Answer {
    /**
     * A meter.
     *
     * @param recordings that hold its power
     */
    public record Meter(
            String name,
            int recordings,
            @Nullable MeterPlace place,
            @Nullable Double readsHighPercent) {}

    /** Two meters on one ride. */
    public record Together(String meters, int rides) {}

    private static final Columns<Meter> METERS = Columns.of(
            Column.<Meter>name("meter", "type and serial", Meter::name).head("METER"),
            Column.<Meter>count("recordings", "that hold its power", Meter::recordings)
                    .head("RIDES"),
            Column.<Meter>word(
                            "place",
                            "before-chain, behind-chain or not-recorded; null where you have not said",
                            m -> m.place() == null ? null : m.place().word())
                    .head("PLACE")
                    .as((m, f) -> m.place() == null ? "not said" : EventWords.place(m.place())),
            Column.figure(
                    "reads_high_pct",
                    Unit.PERCENT,
                    3,
                    "more than the truth, by your calibration",
                    m -> m.readsHighPercent() == null ? Double.NaN : m.readsHighPercent()),
            Column.<Meter>shown(
                    "READS",
                    Unit.PERCENT,
                    (m, f) -> m.readsHighPercent() == null ? "" : Formatter.signed(m.readsHighPercent(), 2) + " %"));

    private static final Columns<Together> TOGETHER = Columns.of(
            Column.name("meters", "on one ride", Together::meters),
            Column.count("rides", "that hold power of both", Together::rides));

    /** The fields of all. */
    public static final Columns<MeterList> FIELDS = Columns.of(
            Column.rows("meters", "by name", METERS, MeterList::meters),
            Column.rows("together", "by their names", TOGETHER, MeterList::together),
            Column.count("untold", "recordings with power whose meter cannot be told", m -> (int) m.untold()));

    /** The names of those seen. */
    public List<String> names() {
        return meters.stream().map(Meter::name).toList();
    }

    /** All that the rides name. */
    public static MeterList of(Analysis analysis, Formatter format) {
        Meters meters = new Meters(analysis.ledger());
        Map<String, Integer> counts = new TreeMap<>();
        analysis.ledger().meters().keySet().forEach(m -> counts.put(m, 0));
        long untold = 0;
        for (AttributedRide r : analysis.rides()) {
            Ride ride = r.filed().ride();
            if (r.verdict() != AttributedRide.Verdict.NOT_A_RIDE
                    && ride.effort().watts() > 0) {
                String name = meters.of(ride).map(Ride.Device::name).orElse("");
                if (name.isEmpty()) {
                    untold++;
                } else {
                    counts.merge(name, 1, Integer::sum);
                }
            }
        }
        List<Meter> all = new ArrayList<>();
        counts.forEach((name, rides) -> {
            Event.MeterPlaced placed = analysis.ledger().meters().get(name);
            all.add(new Meter(
                    name,
                    rides,
                    placed == null ? null : placed.place(),
                    placed == null ? null : placed.readsHighPercent()));
        });
        List<Together> together = new ArrayList<>();
        RidePairs.together(analysis.ledger(), analysis.rides())
                .forEach((names, rides) -> together.add(new Together(names, rides)));
        return new MeterList(all, together, untold, format);
    }

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        if (meters.isEmpty()) {
            out.line("no ride with power from a meter that its file names; chainage import FOLDER reads more");
            return;
        }
        out.table(METERS.table(meters, format));
        together.forEach(
                t -> out.line(Formatter.count(t.rides(), "ride", "rides") + " recorded by " + t.meters() + " at once"));
        if (untold > 0) {
            out.line(Formatter.count(untold, "recording with power", "recordings with power")
                    + " whose meter its file does not tell: none named, or several");
        }
        boolean placed = meters.stream().anyMatch(m -> m.place() == MeterPlace.BEFORE_CHAIN)
                && meters.stream().anyMatch(m -> m.place() == MeterPlace.BEHIND_CHAIN);
        if (placed) {
            out.hint("What the pairs tell: chainage loss --pairs");
        } else if (!together.isEmpty()) {
            out.hint("Say where each sits, and the chain between them is measured: chainage meter set METER"
                    + " --before-chain (pedals, cranks) or --behind-chain (hub, trainer)");
        }
    }
}
