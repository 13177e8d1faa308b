package chainage.answer.loss;

import chainage.analysis.Analysis;
import chainage.analysis.ChainState;
import chainage.analysis.Losses;
import chainage.analysis.Pairs;
import chainage.answer.ModelBand;
import chainage.answer.NextStep;
import chainage.answer.StateWords;
import chainage.friction.Effort;
import chainage.friction.Loss;
import chainage.friction.LossSum;
import chainage.ledger.Event;
import chainage.meter.MeasuredLoss;
import chainage.quantity.Estimate;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import chainage.render.Unit;
import chainage.standing.Standing;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * What each chain loses as it stands, at one effort.
 *
 * @param analysis it is taken from
 * @param chains only these; empty for all
 * @param effort the effort
 * @param stated whether the rider named it, or it is the reference rider's
 * @param why whether each chain says what its figures rest on
 * @param missing where there is no ledger yet; null where there is one
 */
public record LossAnswer(
        Analysis analysis,
        List<String> chains,
        Effort effort,
        boolean stated,
        boolean why,
        Formatter format,
        @Nullable String missing)
        implements Answer {
    public LossAnswer {
        chains = List.copyOf(chains);
    }

    /** What two power meters say of a chain's loss over fresh, watts; null where the model alone speaks. */
    private static @Nullable Estimate measured(Analysis analysis, ChainState state, Standing s, Effort effort) {
        Pairs pairs = analysis.pairs();
        if (pairs.isEmpty()) {
            return null;
        }
        Event.ProductDescribed product = s.exposure().product();
        if (!pairs.rise(analysis, product).isTold()) {
            return null;
        }
        MeasuredLoss.State now = Pairs.state(analysis, product, state.cleaning(), state.used(), state.bike(), effort);
        MeasuredLoss.State fresh = Pairs.state(analysis, product, 0, state.bike(), effort);
        if (!pairs.isMeasured(now, fresh)) {
            return null;
        }
        MeasuredLoss.Share more = pairs.learnt().more(now, fresh);
        return new Estimate(effort.watts() * more.low(), effort.watts() * more.middle(), effort.watts() * more.high());
    }

    /**
     * A chain.
     *
     * @param measured more than fresh by two power meters, watts; null where the model alone speaks
     * @param fresh what it would lose freshly treated, watts
     * @param since what the rides on its treatment lost
     * @param reasons where the coefficient of friction comes from
     */
    private record Row(
            Standing standing,
            ChainState state,
            Loss loss,
            double fresh,
            @Nullable Estimate measured,
            LossSum since,
            List<String> reasons) {
        static Row of(Analysis analysis, Standing s, Effort effort) {
            ChainState state = ChainState.now(analysis, s);
            return new Row(
                    s,
                    state,
                    state.loss(analysis, effort),
                    state.fresh(analysis).loss(analysis, effort).watts(),
                    LossAnswer.measured(analysis, state, s, effort),
                    Losses.sinceTreatment(analysis, s),
                    StateWords.why(analysis.factors(), state));
        }
    }

    private static final Columns<Row> CHAINS = Columns.of(
            Column.<Row>name("chain", "which", r -> r.standing().chain()).head("CHAIN"),
            Column.<Row>name(
                            "bike",
                            "it is on; null on the shelf",
                            r -> r.standing().bike())
                    .head("ON")
                    .as((r, f) ->
                            r.standing().bike() == null ? "shelf" : r.standing().bike()),
            Column.<Row>name(
                            "product",
                            "it was treated with",
                            r -> r.standing().exposure().product().product())
                    .head("PRODUCT"),
            Column.word("method", "of that treatment", r -> r.state().method().word()),
            Column.word("cleaning", "before it", r -> r.state().cleaning().word()),
            Column.figure(
                    "treatment_used",
                    Unit.SHARE,
                    4,
                    "of its limit",
                    r -> r.standing().treatment().used()),
            Column.<Row>figure(
                            "treatment_used_of_likely",
                            Unit.SHARE,
                            4,
                            "of its likely life, by which its friction goes",
                            r -> r.state().used())
                    .head("OF LIFE"),
            Column.<Row>figure(
                            "friction",
                            Unit.TIMES,
                            4,
                            "coefficient of friction",
                            r -> r.state().mu())
                    .head("FRICTION")
                    .as((r, f) -> Formatter.fixed(r.state().mu(), 3)),
            Column.<Row>figure(
                            "loss_watts",
                            Unit.WATTS,
                            3,
                            "lost in the chain",
                            r -> r.loss().watts())
                    .head("LOSS W"),
            Column.figure(
                    "loss_watts_low",
                    Unit.WATTS,
                    3,
                    "the low end of the model's band",
                    r -> r.loss().low()),
            Column.figure(
                    "loss_watts_high",
                    Unit.WATTS,
                    3,
                    "the high end of the model's band",
                    r -> r.loss().high()),
            Column.<Row>shown(
                    "BAND W",
                    Unit.WATTS,
                    (r, f) -> Formatter.range(r.loss().low(), r.loss().high(), 1)),
            Column.<Row>figure("fresh_watts", Unit.WATTS, 3, "the loss freshly treated", Row::fresh)
                    .head("RISE W")
                    .as((r, f) -> Formatter.signed(r.loss().watts() - r.fresh(), 1)),
            Column.word(
                    "over_fresh_from",
                    "measured where rides with two power meters tell it, else modelled",
                    r -> r.measured() == null ? "modelled" : "measured"),
            Column.estimate(
                    "over_fresh_measured_watts",
                    Unit.WATTS,
                    3,
                    "more than freshly treated, by those rides; null without",
                    Row::measured),
            Column.figure(
                    "efficiency_pct",
                    Unit.PERCENT,
                    3,
                    "of the power that reaches the wheel",
                    r -> 100 * r.loss().efficiency()),
            Column.object("since_treatment", "the rides on this treatment", LossColumns.SUM, Row::since),
            Column.list("why", "where the friction comes from", Row::reasons));

    /** The fields of all. */
    public static final Columns<LossAnswer> FIELDS = Columns.of(
            Column.time(
                    "at",
                    "the instant that the chains are looked at",
                    a -> a.analysis().at()),
            Column.figure(
                    "watts",
                    Unit.WATTS,
                    1,
                    "power at the crank",
                    a -> a.effort().watts()),
            Column.count("ring", "teeth", a -> a.effort().gear().ring()),
            Column.count("cog", "teeth", a -> a.effort().gear().cog()),
            Column.figure("rpm", Unit.COUNT, 1, "cadence", a -> a.effort().rpm()),
            Column.rows("chains", "nearest its limit first", CHAINS, LossAnswer::rows));

    private List<Row> rows() {
        return analysis.standings().stream()
                .filter(s -> chains.isEmpty() || chains.contains(s.chain()))
                .map(s -> Row.of(analysis, s, effort))
                .toList();
    }

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        List<Row> rows = rows();
        if (rows.isEmpty()) {
            out.lines(NextStep.next(missing, analysis));
            return;
        }
        out.line("Lost in the chain at " + effort
                + (stated ? ":" : " (the reference rider; --watts, --gear and --rpm ask for another):"));
        out.line();
        out.table(CHAINS.table(rows, format));
        List<String> measured = rows.stream()
                .filter(r -> r.measured() != null)
                .map(this::measured)
                .toList();
        if (!measured.isEmpty()) {
            out.line();
            measured.forEach(out::line);
        }
        if (!out.quiet()) {
            out.line();
            out.line("OF LIFE: how much is used of the treatment's typical life, from which the friction is worked out"
                    + " (USED in chainage due is of the distance at which it is due, to be safe). RISE W: above"
                    + " fresh.");
            out.line(ModelBand.caution(Loss.BAND * effort.watts()));
        }
        if (why) {
            for (Row r : rows) {
                out.lines(r.reasons());
                out.line("  since its treatment: " + since(r.since()));
                String others =
                        PairWords.ofOthers(analysis, r.standing().exposure().product());
                if (others != null) {
                    out.line("  " + others);
                }
            }
        }
    }

    private String measured(Row r) {
        Estimate e = Objects.requireNonNull(r.measured());
        Event.ProductDescribed product = r.standing().exposure().product();
        return r.standing().chain() + ": " + product.product() + ", used so far, was measured "
                + Formatter.signed(e.likely(), 1) + " W above fresh, between "
                + Formatter.fixed(e.low(), 1) + " and " + Formatter.fixed(e.high(), 1) + " (80 %), by "
                + PairWords.rides(analysis.pairs(), product)
                + " with two power meters (chainage loss --pairs). The figures above are modelled.";
    }

    private static String since(LossSum sum) {
        if (sum.rides() == 0) {
            return "no ride yet";
        }
        String rides = Formatter.count(sum.rides(), "ride", "rides");
        if (sum.counted() == 0) {
            return rides + ", none with power";
        }
        return rides + ", " + sum.counted() + " with power: mean loss " + Formatter.fixed(sum.watts(), 1) + " W ("
                + Formatter.fixed(sum.wattsLow(), 1) + " to " + Formatter.fixed(sum.wattsHigh(), 1) + ") of "
                + Formatter.fixed(sum.crankJoules() / sum.seconds(), 0) + " W, "
                + Formatter.fixed(sum.wattsOverFresh(), 1) + " W above fresh; " + LossColumns.known(sum);
    }
}
