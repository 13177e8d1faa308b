package chainage.answer.plan;

import chainage.analysis.Analysis;
import chainage.answer.NextStep;
import chainage.answer.Safety;
import chainage.cost.Dose;
import chainage.ledger.Method;
import chainage.plan.Plan;
import chainage.plan.PlannedTreatment;
import chainage.plan.PotSession;
import chainage.plan.Purchase;
import chainage.plan.Swap;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import chainage.render.Unit;
import chainage.standing.Standing;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * What to do in the coming weeks: a table of treatments, then sessions, swaps and purchases in sentences.
 *
 * @param analysis it is planned from
 * @param plan what to do
 * @param weeks that it looks ahead
 * @param why whether each proposal says what it rests on
 * @param missing where there is no ledger yet; null where there is one
 */
public record PlanAnswer(
        Analysis analysis,
        Plan plan,
        int weeks,
        boolean why,
        Formatter format,
        @Nullable String missing) implements Answer {

    /** A part of the plan with the whole that it is part of. */
    private record Part<T>(T of, PlanAnswer answer) {}

    private static final Columns<Part<PlannedTreatment>> TREATMENTS = Columns.of(
            Column.<Part<PlannedTreatment>>name("chain", "to treat", t -> t.of().chain())
                    .head("CHAIN"),
            Column.<Part<PlannedTreatment>>name("bike", "it is on; null on the shelf", t -> t.of().bike())
                    .head("ON")
                    .as((t, format) -> t.of().bike() == null ? "shelf" : t.of().bike()),
            Column.<Part<PlannedTreatment>>name(
                            "product", "to put on", t -> t.of().product().product())
                    .head("PRODUCT"),
            Column.<Part<PlannedTreatment>>figure(
                            "treatment_used", Unit.SHARE, 4, "of its limit so far", t -> t.of().used())
                    .head("USED"),
            Column.time("from", "when enough is used to make it worthwhile", t -> t.of().from()),
            Column.<Part<PlannedTreatment>>time(
                            "cautious",
                            "when it should be done at the latest, by the risk you take",
                            t -> t.of().cautious())
                    .head("TREAT BY")
                    .as((t, format) -> t.of().cautious() == null
                            ? "before use"
                            : t.answer().words().day(t.of().cautious())),
            Column.<Part<PlannedTreatment>>time("likely", "when it is likely worn off", t -> t.of().likely())
                    .head("LIKELY WORN OFF")
                    .as((t, format) ->
                            t.of().likely() == null ? "" : t.answer().words().day(t.of().likely())),
            Column.<Part<PlannedTreatment>>figure(
                            "every_days",
                            Unit.COUNT,
                            1,
                            "how many days apart those after it would be, as its bike is ridden; null where it has no date",
                            t -> t.of().everyDays())
                    .head("THEN EVERY")
                    .as((t, format) ->
                            Double.isNaN(t.of().everyDays()) ? "" : PlanWords.whole(t.of().everyDays()) + " days"),
            Column.word("why", "what the dates rest on", t -> t.answer().words().reason(t.of())));

    private static final Columns<Part<PotSession>> SESSIONS = Columns.of(
            Column.time("by", "the latest moment that is in time for all", s -> s.of().by()),
            Column.name(
                    "product",
                    "that the chains are waxed with",
                    s -> s.of().product().product()),
            Column.list(
                    "chains",
                    "the most urgent first",
                    s -> s.of().treatments().stream()
                            .map(PlannedTreatment::chain)
                            .toList()),
            Column.figure(
                    "minutes",
                    Unit.MINUTES,
                    1,
                    "of work",
                    s -> s.of().together(
                                    s.answer().minutes(s.of()),
                                    s.answer().analysis().factors().value("plan.fixed-share"))),
            Column.figure(
                    "minutes_one_by_one",
                    Unit.MINUTES,
                    1,
                    "of work without the session",
                    s -> s.of().oneByOne(s.answer().minutes(s.of()))));

    private static final Columns<Swap> SWAPS = Columns.of(
            Column.name("bike", "to install it on", Swap::bike),
            Column.name("chain", "on it now", s -> s.now().chain()),
            Column.name("next", "to install; null where none fits", s -> next(s, Standing::chain)),
            Column.time("when", "about", Swap::when),
            Column.truth("treat_first", "whether it wants a treatment before", Swap::treatFirst),
            Column.figure(
                    "next_treatment_used",
                    Unit.SHARE,
                    4,
                    "of its treatment; null where no chain is next",
                    s -> next(s, n -> n.treatment().used())),
            Column.figure(
                    "next_elongation_pct",
                    Unit.PERCENT,
                    4,
                    "likely; null where no chain is next",
                    s -> next(s, n -> n.wear().elongationPercent().likely())),
            Column.word("why", "it fits", PlanWords::fits));

    private static final Columns<Purchase> PURCHASES = Columns.of(
            Column.time("by", "when it is wanted; null for no date", Purchase::by),
            Column.word("what", "chain or product", p -> p instanceof Purchase.Chain ? "chain" : "product"),
            Column.name(
                    "product",
                    "to buy; null for a chain",
                    p -> p instanceof Purchase.Refill r ? r.supply().product().product() : null),
            Column.name(
                    "in_place_of",
                    "the chain that is worn; null for a product",
                    p -> p instanceof Purchase.Chain c ? c.worn().chain() : null));

    private static final Columns<Purchase.Supply> SUPPLIES = Columns.of(
            Column.name("product", "whose purchases are noted", s -> s.product().product()),
            Column.figure(
                    "left_ml", Unit.MILLILITRES, 1, "of it left", s -> s.stock().millilitres()),
            Column.figure(
                    "bought_ml",
                    Unit.MILLILITRES,
                    1,
                    "of it bought",
                    s -> s.stock().boughtMillilitres()),
            Column.figure(
                    "treatments_left",
                    Unit.COUNT,
                    2,
                    "that what is left suffices for",
                    Purchase.Supply::treatmentsLeft),
            Column.time("runs_out", "when it is used up; null for no date", Purchase.Supply::runsOut));

    /** The fields of all. */
    public static final Columns<PlanAnswer> FIELDS = Columns.of(
            Column.time(
                    "at", "the instant it is planned from", a -> a.analysis().at()),
            Column.time("until", "the last that is looked at", a -> a.plan().until()),
            Column.rows("treatments", "the soonest first", TREATMENTS, PlanAnswer::treatments),
            Column.rows(
                    "sessions",
                    "waxing sessions, by time",
                    SESSIONS,
                    a -> a.parts(a.plan().sessions())),
            Column.rows(
                    "next",
                    "the chain to install next, by bike",
                    SWAPS,
                    a -> a.plan().swaps()),
            Column.rows("buy", "by day", PURCHASES, a -> a.plan().purchases()),
            Column.rows("supplies", "by name", SUPPLIES, a -> a.plan().supplies()));

    private static <T> @Nullable T next(Swap s, Function<Standing, T> figure) {
        Standing next = s.next();
        return next == null ? null : figure.apply(next);
    }

    private List<Part<PlannedTreatment>> treatments() {
        return parts(plan.treatments());
    }

    private <T> List<Part<T>> parts(List<T> parts) {
        return parts.stream().map(p -> new Part<>(p, this)).toList();
    }

    /** Minutes of one treatment; NaN where nothing says how long it takes. */
    private double minutes(PotSession s) {
        return Dose.of(analysis.ledger(), s.product()).minutes();
    }

    private PlanWords words() {
        return new PlanWords(analysis, format);
    }

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        if (analysis.standings().isEmpty()) {
            out.lines(NextStep.next(missing, analysis));
            return;
        }
        PlanWords words = words();
        boolean none = plan.treatments().isEmpty();
        String until = Formatter.count(weeks, "week", "weeks") + " to " + format.date(plan.until());
        out.line(
                none
                        ? "No treatment falls due in the " + until + "."
                        : "Each chain's next treatment, where it falls in the " + until + ":");
        if (!none) {
            out.line();
            out.table(TREATMENTS.table(treatments(), format, t -> why ? words.reason(t.of()) : null));
        }
        section(
                out,
                "Waxing sessions",
                plan.sessions().stream().map(words::session).toList());
        section(out, "To ride next", plan.swaps().stream().map(words::swap).toList());
        section(out, "To buy", plan.purchases().stream().map(words::purchase).toList());
        section(out, "Left", plan.supplies().stream().map(words::supply).toList());
        if (!out.quiet()) {
            cautions(out);
        }
    }

    /** Lines under a heading, each with its reasons set in; nothing when there are none. */
    private void section(Out out, String heading, List<List<String>> items) {
        if (items.isEmpty()) {
            return;
        }
        out.line();
        out.line(heading + ":");
        for (List<String> lines : items) {
            out.line(2, lines.get(0));
            if (why) {
                lines.stream().skip(1).forEach(l -> out.line(4, l));
            }
        }
    }

    private void cautions(Out out) {
        boolean unrecorded =
                plan.supplies().isEmpty() && !analysis.ledger().products().isEmpty();
        if (!plan.treatments().isEmpty() || !plan.purchases().isEmpty() || unrecorded) {
            out.line();
        }
        boolean pot = plan.treatments().stream().anyMatch(t -> t.product().method() == Method.HOT_WAX);
        if (!plan.treatments().isEmpty()) {
            out.line(Safety.treating(pot ? Method.HOT_WAX : Method.WET_LUBE));
        }
        if (plan.purchases().stream().anyMatch(p -> p instanceof Purchase.Chain)) {
            out.line(Safety.REPLACING);
        }
        if (unrecorded) {
            out.line("To be told when a product runs out, note what you buy: chainage product buy PRODUCT");
        }
    }
}
