package chainage.answer.due;

import chainage.analysis.Analysis;
import chainage.analysis.Nearest;
import chainage.answer.Contradictions;
import chainage.answer.NextStep;
import chainage.answer.Safety;
import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.quantity.Estimate;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import chainage.render.Unit;
import chainage.standing.Dates;
import chainage.standing.Standing;
import chainage.treatment.ProductLife;
import chainage.treatment.TreatmentStanding;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * The nearest chain in a sentence, all of them in a table, what is missing below.
 *
 * @param analysis they are taken from
 * @param shown those asked for, nearest its limit first
 * @param why whether the rides, the factors and the arithmetic follow
 * @param missing where there is no ledger yet; null where there is one
 */
public record DueAnswer(
        Analysis analysis,
        List<Standing> shown,
        boolean why,
        Formatter format,
        @Nullable String missing) implements Answer {
    /** A chain with what its figures are read by. */
    public record Row(Standing standing, Analysis analysis, Formatter format) {
        private TreatmentStanding treatment() {
            return standing.treatment();
        }

        private boolean treat() {
            return treatment().used() >= 1;
        }

        private @Nullable Days days(@Nullable Dates d) {
            return Days.of(d, format);
        }

        /** What the column of treatments says. */
        String treatWhen() {
            return standing.bike() == null
                    ? standing.dueBeforeUse() ? "before use" : "–"
                    : standing.dueBeforeNextRide() ? "next ride" : format.due(standing.treatBy(), treat());
        }

        /** What the column of replacements says. */
        String replaceWhen() {
            return Advice.contradicted(analysis, standing)
                    ? "measure"
                    : format.dueRoughly(standing.replaceOn(), standing.wear().used() >= 1, analysis.at());
        }

        private int lives(Function<ProductLife, Integer> count) {
            ProductLife product = treatment().product();
            return product == null ? 0 : count.apply(product);
        }
    }

    /** Local dates with their 80 % interval. */
    record Days(String low, String likely, String high) {
        static @Nullable Days of(@Nullable Dates d, Formatter format) {
            return d == null ? null : new Days(format.date(d.low()), format.date(d.likely()), format.date(d.high()));
        }
    }

    static final Columns<Days> DAYS = Columns.of(
            Column.<Days>day("low", "one in ten is earlier", Days::low),
            Column.<Days>day("likely", "as many are earlier as later", Days::likely),
            Column.<Days>day("high", "one in ten is later", Days::high));

    /** A chain's fields and columns. */
    public static final Columns<Row> COLUMNS = Columns.of(
            Column.<Row>name("chain", "its name", r -> r.standing().chain()).head("CHAIN"),
            Column.<Row>name(
                            "bike",
                            "it is on; null on the shelf",
                            r -> r.standing().bike())
                    .head("ON")
                    .as((r, format) -> r.standing().bike() == null
                            ? "shelf"
                            : String.valueOf(r.standing().bike())),
            Column.<Row>name(
                            "product",
                            "it was treated with",
                            r -> r.standing().exposure().product().product())
                    .head("PRODUCT"),
            Column.time("treated_at", "when", r -> r.standing().exposure().treatedAt()),
            Column.figure(
                    "ridden_metres",
                    Unit.METRES,
                    1,
                    "in all",
                    r -> r.standing().exposure().riddenMetres()),
            Column.figure(
                    "metres_since_treatment",
                    Unit.METRES,
                    1,
                    "ridden since its treatment",
                    r -> r.treatment().riddenMetres()),
            Column.figure(
                    "treatment_exposure_metres",
                    Unit.METRES,
                    1,
                    "the same as dry, clean road",
                    r -> r.treatment().exposureMetres()),
            Column.estimate(
                    "treatment_life_metres",
                    Unit.METRES,
                    1,
                    "life of the treatment, of dry, clean road",
                    r -> r.treatment().lifeMetres()),
            Column.figure(
                    "treatment_limit_metres",
                    Unit.METRES,
                    1,
                    "at which it is due",
                    r -> r.treatment().limitMetres()),
            Column.<Row>figure(
                            "treatment_used",
                            Unit.SHARE,
                            4,
                            "of that limit",
                            r -> r.treatment().used())
                    .head("USED"),
            Column.figure(
                    "treatment_used_of_likely",
                    Unit.SHARE,
                    4,
                    "of the likely life",
                    r -> r.treatment().usedOfLikely()),
            Column.figure(
                    "treatment_left_metres",
                    Unit.METRES,
                    1,
                    "of dry, clean road until it is due",
                    r -> r.treatment().dueInMetres()),
            Column.<Row>figure(
                            "treatment_left_usual_metres",
                            Unit.METRES,
                            1,
                            "the same on its bike's usual roads; null without recent rides",
                            r -> r.standing().hasUsualRoads() ? r.standing().leftMetres() : Double.NaN)
                    .head("LEFT")
                    .as((r, format) -> r.standing().leftMetres() <= 0
                            ? "0 " + format.unit()
                            : format.leftWhole(r.standing().leftMetres())),
            Column.estimate(
                    "treatment_left",
                    Unit.METRES,
                    1,
                    "left of the life",
                    r -> r.treatment().leftMetres()),
            Column.object(
                    "treat_on",
                    "when the treatment is worn off",
                    DAYS,
                    r -> r.days(r.standing().treatOn())),
            Column.object(
                    "treat_by",
                    "when it is due; null on the shelf or without recent rides",
                    DAYS,
                    r -> r.days(r.standing().treatBy())),
            Column.<Row>shown("TREAT", Unit.DAY, (r, format) -> r.treatWhen()).loud(r -> r.treat()),
            Column.figure(
                    "usual_ride_metres",
                    Unit.METRES,
                    1,
                    "what a usual ride of its bike, on the shelf of its last one, counts for it, of dry, clean road",
                    r -> r.standing().usualRideMetres()),
            Column.truth(
                    "treat_before_next_ride",
                    "whether a usual ride would take it past its limit",
                    r -> r.standing().dueBeforeNextRide()),
            Column.figure("treatment_table_weight", Unit.SHARE, 4, "what the table still weighs in its life", r -> {
                ProductLife product = r.treatment().product();
                return product == null ? Double.NaN : product.tableWeight();
            }),
            Column.count(
                    "treatment_lives_ended",
                    "treatments with its product that ran until noisy",
                    r -> r.lives(ProductLife::ended)),
            Column.count(
                    "treatment_lives_silent",
                    "treatments renewed or running without a noise",
                    r -> r.lives(ProductLife::silent)),
            Column.<Row>estimate(
                            "elongation_pct",
                            Unit.PERCENT,
                            4,
                            "how far it is worn",
                            r -> r.standing().wear().elongationPercent())
                    .head("WORN %")
                    .as((r, format) -> Formatter.elongation(
                                    r.standing().wear().elongationPercent().likely())
                            + "/" + Formatter.elongation(r.standing().wear().limitPercent())),
            Column.figure(
                    "limit_pct",
                    Unit.PERCENT,
                    4,
                    "elongation at which to replace it",
                    r -> r.standing().wear().limitPercent()),
            Column.figure(
                    "expected_pct",
                    Unit.PERCENT,
                    4,
                    "elongation by the table, without any reading",
                    r -> r.standing().wear().expectedPercent()),
            Column.estimate(
                    "pace",
                    Unit.TIMES,
                    4,
                    "how many times as fast as the table it wears",
                    r -> r.standing().wear().elongation().pace()),
            Column.estimate(
                    "wear_ratio",
                    Unit.TIMES,
                    4,
                    "how many times as fast as the table it wears; the same as pace, which earlier versions gave",
                    r -> r.standing().wear().elongation().pace()),
            Column.figure(
                    "over_limit_chance",
                    Unit.SHARE,
                    4,
                    "chance that it is past its limit",
                    r -> r.standing().wear().over()),
            Column.count(
                    "readings", "of it", r -> r.standing().wear().readings().size()),
            Column.figure(
                    "replacement_used",
                    Unit.SHARE,
                    4,
                    "of its limit",
                    r -> r.standing().wear().used()),
            Column.estimate(
                    "replacement_left_metres",
                    Unit.METRES,
                    1,
                    "left to its limit",
                    r -> r.standing().wear().leftMetres()),
            Column.object(
                    "replace_on",
                    "when it reaches its limit; null without recent rides",
                    DAYS,
                    r -> r.days(r.standing().replaceOn())),
            Column.<Row>shown("REPLACE", Unit.DAY, (r, format) -> r.replaceWhen())
                    .loud(r -> r.standing().wear().used() >= 1),
            Column.word(
                    "nearest",
                    "treatment or replacement",
                    r -> r.standing().nearest().name().toLowerCase(Locale.ROOT)),
            Column.word("condemned", "what it was noted as that puts it out of service; null for none", r -> {
                Event.Remarked noted = r.standing().wear().outOfService();
                return noted == null ? null : noted.remark().word();
            }),
            Column.truth(
                    "noisy",
                    "whether it was heard since its treatment",
                    r -> r.treatment().noisy() != null),
            Column.list(
                    "why",
                    "what the figures rest on, a sentence each",
                    r -> Why.lines(r.analysis(), r.standing(), r.format())));

    /** What scripts get. */
    public static final Columns<DueAnswer> FIELDS = Columns.of(
            Column.<DueAnswer>time(
                    "at", "the instant answered for", a -> a.analysis().at()),
            Column.rows("chains", "nearest its limit first", COLUMNS, DueAnswer::rows),
            Column.figure(
                    "unattributed_metres",
                    Unit.METRES,
                    1,
                    "of rides that no chain has",
                    a -> a.analysis().exposures().unattributedMetres()));

    private List<Row> rows() {
        return shown.stream().map(s -> new Row(s, analysis, format)).toList();
    }

    /** What the facts about these chains contradict, and which readings do not fit; a line each. */
    public List<String> contradictions() {
        return Contradictions.of(
                analysis.ledger(), analysis, shown.stream().map(Standing::chain).toList(), format);
    }

    /** What to do now about these chains, or before their next ride, nearest its limit first. */
    public List<Notice> notices() {
        Advice advice = new Advice(analysis, format);
        return shown.stream()
                .filter(s -> s.due() || s.dueBeforeNextRide())
                .map(s -> Notice.of(s, advice))
                .toList();
    }

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        Nearest nearest = Nearest.of(shown).orElse(null);
        if (nearest == null) {
            out.lines(NextStep.next(missing, analysis));
            NextStep.unattributed(analysis, format, out);
            return;
        }
        Advice advice = new Advice(analysis, format);
        out.advice(advice.sentence(nearest.chain()), nearest.chain().due());
        String next = Advice.next(nearest.chain());
        if (nearest.chain().due() && next != null) {
            out.hint("When it is done: " + next);
        }
        out.lines(advice.shelfAhead(nearest));
        out.lines(advice.beforeNextRide(nearest.chain()));
        out.line();
        out.table(COLUMNS.table(rows(), format, r -> out.quiet() ? null : sure(r.standing())));
        out.line();
        if (!out.quiet()) {
            footer(nearest.chain(), out);
        }
        NextStep.unattributed(analysis, format, out);
        if (why) {
            shown.forEach(s -> Why.print(analysis, s, format, out));
        }
    }

    /** How sure a row is, and what it rests on. */
    private String sure(Standing s) {
        Estimate worn = s.wear().elongationPercent();
        int readings = s.wear().readings().size();
        int others = s.wear().othersRead();
        double riders = s.wear().othersWeight();
        return treated(s) + "Worn " + Formatter.elongation(worn.low()) + " to "
                + Formatter.elongation(worn.high()) + " %, by "
                + (readings > 0
                        ? Formatter.count(readings, "reading", "readings")
                        : others > 0
                                ? "readings of " + Formatter.count(others, "other chain", "other chains")
                                : "the built-in table")
                + (riders >= 0.005 ? ", for " + Formatter.percent(riders) + " by other riders' chains" : "")
                + (readings > 0 || others > 0 ? "." : ": it was never measured.");
    }

    /** How far the treatment is, and how long such a one lasts; nothing without one. */
    private String treated(Standing s) {
        TreatmentStanding t = s.treatment();
        Estimate life = t.lifeMetres();
        if (t.basis() == null || life == null) {
            return "";
        }
        String unit = " " + format.unit();
        String ridden = format.whole(t.riddenMetres());
        String counted = format.whole(t.exposureMetres());
        String since = ridden + unit + " ridden since it was treated"
                + (counted.equals(ridden) ? "" : ", counting as " + counted + unit) + "; ";
        Instant heard = t.noisy();
        if (heard != null) {
            return since + "you heard it on " + format.date(heard) + ", so it is worn off. ";
        }
        return since + "8 in 10 such treatments last " + format.whole(life.low()) + " to " + format.whole(life.high())
                + unit + ", typically " + format.whole(life.likely()) + "; to be safe, treat it at "
                + format.whole(t.limitMetres()) + unit + ". That comes from "
                + by(t.basis().get()) + ". ";
    }

    private static String by(TreatmentStanding.Basis basis) {
        boolean own = basis.lives() > 0;
        boolean others = basis.othersWeight() > 0;
        if (!own && !others) {
            return "the built-in table";
        }
        return (own
                        ? Formatter.count(basis.lives(), "other treatment of yours", "other treatments of yours")
                                + (others
                                        ? ", for " + Formatter.percent(basis.othersWeight()) + " from others' chains"
                                        : "")
                        : "others' chains")
                + (basis.tableWeight() > 0.99
                        ? ", and from the built-in table"
                        : ", and for " + Formatter.percent(basis.tableWeight()) + " from the built-in table");
    }

    private void footer(Standing nearest, Out out) {
        Factors.Factor risk = analysis.factors().factor(TreatmentStanding.RISK);
        out.line((format.imperial() ? "Miles" : "Kilometres")
                + " since a treatment are counted as on dry, clean road; wet or dirty ones count more"
                + (why ? "" : " (--why)") + ". USED 100 %: time to treat; by then " + Formatter.oneIn(risk.value())
                + " such treatments would be worn off, that is noisy (due.risk, " + risk.mark()
                + "). LEFT: how far until then"
                + usualRoads() + ". WORN: elongation, and its limit.");
        if (shown.stream().anyMatch(s -> s.replaceOn() != null)) {
            String far = format.far(analysis.at());
            boolean isFar = rows().stream().anyMatch(r -> r.replaceWhen().equals(far));
            out.line("Dates go by each bike's last 52 weeks to " + format.date(analysis.at())
                    + ", or as many as there are"
                    + (isFar ? "; " + far + " is after " + far.replace("+", "") : "")
                    + (rows().stream().anyMatch(r -> r.replaceWhen().equals("–"))
                            ? "; – is none that can be told, or one more than " + Dates.HORIZON_YEARS + " years off"
                            : "")
                    + ".");
        }
        undated(out);
        if (shown.stream().anyMatch(s -> s.wear().used() >= 1)) {
            out.line(Safety.REPLACING);
        } else if (nearest.due()) {
            out.line(Safety.treating(nearest.exposure().product().method()));
        }
    }

    /** On which roads what is left is told. */
    private String usualRoads() {
        long without = shown.stream().filter(s -> !s.hasUsualRoads()).count();
        return without == shown.size()
                ? ""
                : ", on the roads that its bike usually rides"
                        + (without == 0 ? "" : " (on dry, clean ones where it was not ridden lately)");
    }

    /** Bikes whose chains get no dates, and why. */
    private void undated(Out out) {
        shown.stream()
                .filter(s ->
                        s.bike() != null && s.treatOn() == null && s.treatment().used() < 1)
                .forEach(s -> {
                    String last = analysis.lastRide(String.valueOf(s.bike()))
                            .map(start -> "no ride since " + format.date(start))
                            .orElse("no ride yet");
                    out.line("No dates for " + s.chain() + ": " + last + " on " + String.valueOf(s.bike()) + ".");
                });
    }
}
