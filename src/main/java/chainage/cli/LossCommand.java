package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.NextStep;
import chainage.attribution.AttributedRide;
import chainage.friction.Effort;
import chainage.friction.Loss;
import chainage.friction.LossSum;
import chainage.friction.RideLoss;
import chainage.friction.RideLosses;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Table;
import chainage.standing.Standing;
import chainage.treatment.Lives;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "loss",
        description = {
            "What each chain's state costs in watts: as it stands now at one effort, ride by ride, or month by month.",
            "",
            "A model's figures, never a measurement; chainage explain loss says how they come about."
        },
        footer = {
            "Examples:",
            "  chainage loss",
            "  chainage loss --watts 250 --gear 52x15 --rpm 90",
            "  chainage loss --ride last",
            "  chainage loss Amber --monthly"
        })
final class LossCommand extends Action {
    @Parameters(arity = "0..*", paramLabel = "CHAIN", description = "only these chains")
    List<String> chains = List.of();

    @Mixin
    EffortOptions effort = new EffortOptions();

    @Option(names = "--ride", paramLabel = "RIDE", description = "what rides lost: an id, a date, a range, or last")
    @Nullable
    String ride;

    @Option(names = "--monthly", description = "what the rides of each month lost")
    boolean monthly;

    @Option(names = "--why", description = "show what each figure rests on")
    boolean why;

    @Override
    public Integer call() {
        CommandContext context = context();
        Analysis analysis = context.analysis();
        List<String> wanted =
                chains.stream().map(c -> Names.chain(analysis.ledger(), c)).toList();
        if (monthly && ride != null) {
            throw CliError.usage("--monthly and --ride are two questions", "ask one at a time");
        }
        if (effort.stated() && (monthly || ride != null)) {
            throw CliError.usage("rides have efforts of their own", "leave --watts, --gear and --rpm out");
        }
        if (ride != null) {
            return rides(context, analysis, ride, wanted);
        }
        return monthly ? months(context, analysis, wanted) : now(context, analysis, wanted);
    }

    /** Losses of every ride on these chains, by start. */
    static List<RideLoss> losses(Analysis analysis, List<String> wanted) {
        RideLosses losses = new RideLosses(analysis.ledger(), analysis.factors());
        Lives lives = analysis.lives();
        List<RideLoss> all = new ArrayList<>();
        analysis.exposures().chains().forEach((name, chain) -> {
            if (wanted.isEmpty() || wanted.contains(name)) {
                all.addAll(losses.of(chain, lives::likelyMetres));
            }
        });
        all.sort(Comparator.comparing(l -> l.exposure().start()));
        return all;
    }

    private Integer now(CommandContext context, Analysis analysis, List<String> wanted) {
        Effort e = effort.effort(analysis.factors().reference());
        List<Json> list = new ArrayList<>();
        List<String> reasons = new ArrayList<>();
        Table table = new Table()
                .left("CHAIN")
                .left("ON")
                .left("PRODUCT")
                .right("USED")
                .right("FRICTION")
                .right("LOSS W")
                .right("BAND W")
                .right("OVER FRESH");
        for (Standing s : analysis.standings()) {
            if (!wanted.isEmpty() && !wanted.contains(s.chain())) {
                continue;
            }
            ChainState state = ChainState.now(analysis, s);
            Loss loss = state.loss(analysis, e);
            double fresh = state.fresh(analysis).loss(analysis, e).watts();
            LossSum since = LossSum.of(losses(analysis, List.of(s.chain())).stream()
                    .filter(l -> Objects.equals(
                            l.exposure().treatedAt(), s.exposure().treatedAt()))
                    .toList());
            table.row(
                    s.chain(),
                    s.bike() == null ? "shelf" : s.bike(),
                    s.exposure().product().product(),
                    Formatter.percent(s.treatment().usedOfLikely()),
                    Formatter.fixed(state.mu(), 3),
                    Formatter.fixed(loss.watts(), 1),
                    band(loss.low(), loss.high()),
                    figure("%+.1f", loss.watts() - fresh));
            reasons.addAll(state.why(analysis));
            reasons.add("  since its treatment: " + since(since));
            list.add(new Json()
                    .put("chain", s.chain())
                    .put("bike", s.bike())
                    .put("product", s.exposure().product().product())
                    .put("method", state.method().word())
                    .put("cleaning", state.cleaning().word())
                    .number("treatment_used", s.treatment().usedOfLikely(), 4)
                    .number("friction", state.mu(), 4)
                    .number("loss_watts", loss.watts(), 3)
                    .number("loss_watts_low", loss.low(), 3)
                    .number("loss_watts_high", loss.high(), 3)
                    .number("fresh_watts", fresh, 3)
                    .number("efficiency_pct", 100 * loss.efficiency(), 3)
                    .put("since_treatment", json(since))
                    .put("why", state.why(analysis)));
        }
        if (context.json()) {
            context.out()
                    .json(new Json()
                            .put("at", analysis.at())
                            .number("watts", e.watts(), 1)
                            .put("ring", e.gear().ring())
                            .put("cog", e.gear().cog())
                            .number("rpm", e.rpm(), 1)
                            .put("chains", list));
            return ExitCode.OK.code();
        }
        if (list.isEmpty()) {
            context.out().lines(NextStep.next(context.missing(), analysis));
            return ExitCode.OK.code();
        }
        context.out()
                .line("Lost in the chain at " + e
                        + (effort.stated()
                                ? ":"
                                : " (the reference rider; --watts, --gear and --rpm ask for another):"));
        context.out().line();
        context.out().table(table);
        if (!context.quiet()) {
            context.out().line();
            bandSaid(context, Loss.BAND * e.watts());
        }
        if (why) {
            reasons.forEach(line -> context.out().line(line));
        }
        return ExitCode.OK.code();
    }

    static void bandSaid(CommandContext context, double watts) {
        context.out().line(bandWords(watts));
    }

    /** How far the model can be trusted. */
    static String bandWords(double watts) {
        return "Model, not measurement: it may be off by one per cent of the power"
                + (watts > 0 ? String.format(Locale.ROOT, " (%.1f W)", watts) : "")
                + " either way. States closer than that cannot be told apart.";
    }

    private static String since(LossSum sum) {
        if (sum.rides() == 0) {
            return "no ride yet";
        }
        if (sum.counted() == 0) {
            return Formatter.count(sum.rides(), "ride", "rides") + ", none with power";
        }
        return Formatter.count(sum.rides(), "ride", "rides") + ", " + sum.counted() + " with power: "
                + String.format(
                        Locale.ROOT,
                        "mean loss %.1f W (%.1f to %.1f) of %.0f W, %.1f W over fresh; gear known for %.0f %% of the"
                                + " energy",
                        sum.watts(),
                        sum.wattsLow(),
                        sum.wattsHigh(),
                        sum.crankJoules() / sum.seconds(),
                        sum.wattsOverFresh(),
                        100 * sum.usable());
    }

    private Integer months(CommandContext context, Analysis analysis, List<String> wanted) {
        Map<String, List<RideLoss>> byMonth = new TreeMap<>();
        for (RideLoss l : losses(analysis, wanted)) {
            String month = context.format().date(l.exposure().start()).substring(0, 7);
            byMonth.computeIfAbsent(month, m -> new ArrayList<>()).add(l);
        }
        List<Json> list = new ArrayList<>();
        Table table = new Table()
                .whole("MONTH")
                .right("RIDES")
                .right("POWER")
                .right("HOURS")
                .right("CRANK kJ")
                .right("LOST kJ")
                .right("MEAN W")
                .right("BAND W")
                .right("OVER FRESH");
        byMonth.forEach((month, losses) -> {
            LossSum sum = LossSum.of(losses);
            table.row(
                    month,
                    Integer.toString(sum.rides()),
                    Integer.toString(sum.counted()),
                    Formatter.fixed(sum.seconds() / 3600, 1),
                    Formatter.fixed(sum.crankJoules() / 1000, 0),
                    Formatter.fixed(sum.lostJoules() / 1000, 0),
                    sum.counted() == 0 ? "–" : Formatter.fixed(sum.watts(), 1),
                    sum.counted() == 0 ? "–" : band(sum.wattsLow(), sum.wattsHigh()),
                    sum.counted() == 0 ? "–" : figure("%+.1f", sum.wattsOverFresh()));
            if (why) {
                table.note(known(sum));
            }
            list.add(json(sum).put("month", month));
        });
        Integer code =
                context.list("months", list, table, "no ride on these chains yet; chainage due says what comes next");
        if (!context.json() && !context.quiet() && !list.isEmpty()) {
            context.out().line("Rides without power lose nothing that could be told; they are left out.");
            bandSaid(context, 0);
        }
        return code;
    }

    private Integer rides(CommandContext context, Analysis analysis, String selector, List<String> wanted) {
        Set<String> selected = context.rides(analysis).select(List.of(selector), null, false).stream()
                .map(AttributedRide::id)
                .collect(Collectors.toSet());
        List<RideLoss> losses = losses(analysis, wanted).stream()
                .filter(l -> selected.contains(l.exposure().ride().id()))
                .toList();
        List<Json> list = new ArrayList<>();
        Table table = new Table()
                .whole("RIDE")
                .whole("DAY")
                .left("CHAIN")
                .right("USED")
                .right("FRICTION")
                .right("LOSS W")
                .right("BAND W")
                .right("OVER FRESH");
        for (RideLoss l : losses) {
            LossSum sum = LossSum.of(List.of(l));
            AttributedRide r = l.exposure().ride();
            table.row(
                    r.id(),
                    context.format().date(r.filed().ride().start()),
                    String.valueOf(r.chain()),
                    Formatter.percent(l.usedTo()),
                    Formatter.fixed(l.mu(), 3),
                    l.counted() ? Formatter.fixed(sum.watts(), 1) : "–",
                    l.counted() ? band(sum.wattsLow(), sum.wattsHigh()) : "–",
                    l.counted() ? figure("%+.1f", sum.wattsOverFresh()) : "–");
            if (why || !l.counted()) {
                table.note(l.pedalled().from() + (l.counted() ? "; " + known(sum) : ", so its loss cannot be told"));
            }
            list.add(json(sum)
                    .put("id", r.id())
                    .put("chain", r.chain())
                    .number("treatment_used_from", l.usedFrom(), 4)
                    .number("treatment_used_to", l.usedTo(), 4)
                    .number("friction", l.mu(), 4)
                    .put("from", l.pedalled().from()));
        }
        return context.list(
                "rides", list, table, "these rides have no chain; chainage rides --unattributed lists such");
    }

    private static String known(LossSum sum) {
        return sum.counted() == 0
                ? "no power in any ride"
                : String.format(Locale.ROOT, "gear known for %.0f %% of the energy", 100 * sum.usable());
    }

    private static Json json(LossSum sum) {
        return new Json()
                .put("rides", sum.rides())
                .put("rides_with_power", sum.counted())
                .number("gear_known_share", sum.counted() == 0 ? Double.NaN : sum.usable(), 3)
                .number("pedalled_s", sum.seconds(), 0)
                .number("crank_joules", sum.crankJoules(), 0)
                .number("lost_joules", sum.lostJoules(), 0)
                .number("fresh_joules", sum.freshJoules(), 0)
                .number("loss_watts", sum.watts(), 3)
                .number("loss_watts_low", sum.wattsLow(), 3)
                .number("loss_watts_high", sum.wattsHigh(), 3)
                .number("over_fresh_watts", sum.wattsOverFresh(), 3);
    }

    static String figure(String pattern, double value) {
        return String.format(Locale.ROOT, pattern, Math.abs(value) < 1e-6 ? 0.0 : value);
    }

    static String band(double low, double high) {
        return Formatter.fixed(low, 1) + "–" + Formatter.fixed(high, 1);
    }
}
