package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.NextStep;
import chainage.answer.Roads;
import chainage.attribution.AttributedRide;
import chainage.condition.Condition;
import chainage.condition.Evidence;
import chainage.condition.Said;
import chainage.exposure.CountedRide;
import chainage.ledger.Grit;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Table;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "conditions",
        description = {
            "How wet and gritty rides were, and by whose word: every piece of evidence, strongest first, with what it says"
                    + " and what is overruled.",
            "Without a ride: what share of your distance rests on which kind of evidence."
        },
        footer = {
            "Examples:",
            "  chainage conditions",
            "  chainage conditions last",
            "  chainage conditions 2026-02-01..2026-02-14 --bike Dunlin"
        })
final class ConditionsCommand extends Action {
    @Parameters(index = "0", arity = "0..*", paramLabel = "RIDE", description = "id, date, range or last")
    List<String> selectors = List.of();

    @Option(names = "--bike", paramLabel = "BIKE", description = "only rides on this bike")
    @Nullable
    String bike;

    @Override
    public Integer call() {
        CommandContext context = context();
        Analysis analysis = context.analysis();
        String onBike = bike == null ? null : Names.bike(analysis.ledger(), bike);
        if (selectors.isEmpty()) {
            return summary(context, analysis, onBike);
        }
        List<AttributedRide> rides = context.rides(analysis).select(selectors, onBike, false);
        if (context.json()) {
            List<Json> list = new ArrayList<>();
            rides.forEach(r -> list.add(json(analysis, r)));
            context.out().json(new Json().put("rides", list));
        } else {
            rides.forEach(r -> print(context, analysis, r));
        }
        return ExitCode.OK.code();
    }

    private static Condition of(Analysis analysis, AttributedRide ride) {
        CountedRide counted = analysis.exposures().counted().get(ride.id());
        if (counted == null) {
            throw new IllegalStateException("a counted ride without a condition: " + ride.id());
        }
        return counted.condition();
    }

    private static void print(CommandContext context, Analysis analysis, AttributedRide r) {
        Condition c = of(analysis, r);
        Formatter format = context.format();
        context.out()
                .line("Ride " + r.id() + ", "
                        + format.time(r.filed().ride().start()) + ", "
                        + format.distance(analysis.exposures().metresOf(r))
                        + (r.bike() == null ? "" : " on " + r.bike()) + ": " + Roads.words(c));
        lines(context, "moisture", c.wetness(), Roads::wetness);
        lines(context, "grit", c.grits(), Grit::word);
        if (!context.quiet()) {
            context.out().line("  to overrule: chainage tag " + r.id() + " WORD");
        }
    }

    private static <T> void lines(CommandContext context, String what, List<Said<T>> said, Function<T, String> value) {
        for (int i = 0; i < said.size(); i++) {
            Said<T> s = said.get(i);
            context.out()
                    .line(
                            i == 0 ? 2 : 4,
                            (i == 0 ? what + " " + value.apply(s.value()) : "overruled: " + value.apply(s.value()))
                                    + " – " + s.why());
        }
    }

    private static Json json(Analysis analysis, AttributedRide r) {
        Condition c = of(analysis, r);
        return new Json()
                .put("id", r.id())
                .put("start", r.filed().ride().start())
                .put("moisture", c.moisture().word())
                .put("grit", c.grit().word())
                .number("wet_share", c.wetShare(), 3)
                .number("damp_share", c.dampShare(), 3)
                .put("moisture_said", said(c.wetness(), Roads::wetness))
                .put("grit_said", said(c.grits(), Grit::word));
    }

    private static <T> List<Json> said(List<Said<T>> said, Function<T, String> value) {
        List<Json> list = new ArrayList<>();
        for (Said<T> s : said) {
            list.add(new Json()
                    .put("evidence", s.evidence().word())
                    .put("says", value.apply(s.value()))
                    .put("why", s.why())
                    .put("counts", list.isEmpty()));
        }
        return list;
    }

    /** Rides and metres that rest on one kind of evidence. */
    private static final class Sum {
        int rides;
        double metres;
    }

    private static Integer summary(CommandContext context, Analysis analysis, @Nullable String bike) {
        Map<Evidence, Sum> moisture = new EnumMap<>(Evidence.class);
        Map<Evidence, Sum> grit = new EnumMap<>(Evidence.class);
        double all = 0;
        for (CountedRide r : analysis.exposures().counted().values()) {
            if (bike != null && !bike.equals(r.ride().bike())) {
                continue;
            }
            double metres = r.metres().metres();
            all += metres;
            add(moisture, r.condition().moistureEvidence(), metres);
            add(grit, r.condition().gritEvidence(), metres);
        }
        double total = all;
        if (context.json()) {
            context.out()
                    .json(new Json()
                            .number("metres", total, 1)
                            .put("moisture", sums(moisture, total))
                            .put("grit", sums(grit, total)));
            return ExitCode.OK.code();
        }
        if (moisture.isEmpty()) {
            context.out()
                    .lines(
                            analysis.rides().isEmpty()
                                    ? NextStep.next(context.missing(), analysis)
                                    : List.of("No ride fits."));
            return ExitCode.OK.code();
        }
        Table table = new Table()
                .left("EVIDENCE")
                .right("MOISTURE OF")
                .right("SHARE")
                .right("GRIT OF")
                .right("SHARE");
        for (Evidence e : Evidence.values()) {
            Sum m = moisture.getOrDefault(e, new Sum());
            Sum g = grit.getOrDefault(e, new Sum());
            table.row(
                    e.words(),
                    Formatter.count(m.rides, "ride", "rides"),
                    total == 0 ? "–" : Formatter.percent(m.metres / total),
                    Formatter.count(g.rides, "ride", "rides"),
                    total == 0 ? "–" : Formatter.percent(g.metres / total));
        }
        context.out().table(table);
        if (!context.quiet()) {
            context.out()
                    .line("Shares are of " + context.format().distance(total)
                            + "; a ride says why: chainage conditions last");
        }
        return ExitCode.OK.code();
    }

    private static void add(Map<Evidence, Sum> sums, Evidence evidence, double metres) {
        Sum sum = sums.computeIfAbsent(evidence, e -> new Sum());
        sum.rides++;
        sum.metres += metres;
    }

    private static List<Json> sums(Map<Evidence, Sum> sums, double total) {
        List<Json> list = new ArrayList<>();
        sums.forEach((e, sum) -> list.add(new Json()
                .put("evidence", e.word())
                .put("rides", sum.rides)
                .number("metres", sum.metres, 1)
                .number("share", total == 0 ? Double.NaN : sum.metres / total, 4)));
        return list;
    }
}
