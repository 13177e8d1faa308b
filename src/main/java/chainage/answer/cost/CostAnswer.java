package chainage.answer.cost;

import chainage.analysis.Analysis;
import chainage.analysis.Costs;
import chainage.answer.ModelBand;
import chainage.answer.NextStep;
import chainage.answer.loss.PairWords;
import chainage.cost.Bill;
import chainage.cost.CostPeriod;
import chainage.cost.CostedProduct;
import chainage.cost.Dose;
import chainage.cost.PricedThing;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.quantity.Money;
import chainage.quantity.PlainText;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import chainage.render.Unit;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * What each product would have cost: what a watt costs, what a year costs, and why.
 *
 * @param analysis it is taken from
 * @param costs the figures
 * @param why whether each product's figures are shown with what they rest on
 * @param missing where there is no ledger yet; null where there is one
 */
public record CostAnswer(
        Analysis analysis,
        Costs costs,
        boolean why,
        Formatter format,
        @Nullable String missing) implements Answer {
    /** What savings are measured against where nothing else is said. */
    public static final String USUAL = "wet lube at half its life, quick clean";

    private static final BigDecimal KILOMETRES_A_MILE = new BigDecimal("1.609344");

    /** A product with the comparison that it is part of. */
    public record Row(CostedProduct product, CostAnswer answer) {
        private Bill year() {
            return product.year();
        }

        private double cautiousAYear() {
            return product.cautious().usage().treatments() * answer.period().aYear();
        }
    }

    /** A bill, in which the parts that nothing has a price for are unknown and not nothing. */
    private record Priced(Bill bill, boolean priced) {}

    /** The least that does not show as 0.0 W. */
    private static final double SHOWN_WATTS = 0.05;

    private static final Columns<Priced> BILL = Columns.of(
            Column.money(
                    "product",
                    "of the product; null where it is not known",
                    p -> p.bill().product()),
            Column.money("time", "of the rider's time", p -> p.bill().time()),
            Column.money(
                    "chain",
                    "of the chains' wear; null where it is not known",
                    p -> p.priced() ? p.bill().chain() : null),
            Column.money(
                    "sprockets",
                    "of the wear of cassettes and rings; null where it is not known",
                    p -> p.priced() ? p.bill().sprockets() : null),
            Column.money(
                    "total",
                    "of all that is known; null where nothing is",
                    p -> p.bill().total()));

    private static final Column<Row> PRODUCT =
            Column.<Row>name("product", "compared", r -> r.product().name()).head("PRODUCT");
    private static final Column<Row> FRICTION = Column.<Row>figure(
                    "friction",
                    Unit.TIMES,
                    4,
                    "mean coefficient of friction",
                    r -> r.product().loss().mu())
            .head("FRICTION")
            .as((r, format) -> Formatter.fixed(r.product().loss().mu(), 3));
    private static final Column<Row> LOSS = Column.<Row>figure(
                    "loss_watts",
                    Unit.WATTS,
                    3,
                    "mean loss in the chain",
                    r -> r.product().loss().watts())
            .head("LOSS W");
    private static final Column<Row> SAVED = Column.<Row>figure(
                    "saved_watts",
                    Unit.WATTS,
                    3,
                    "less than the baseline loses; negative where it is more",
                    r -> r.product().saved())
            .head("SAVED W");

    /** A product's fields. */
    public static final Columns<Row> PRODUCTS = Columns.of(
            PRODUCT,
            Column.word(
                    "method",
                    "of treating with it",
                    r -> r.product().likely().product().method().word()),
            Column.word(
                    "cleaning",
                    "before each treatment",
                    r -> r.product().likely().cleaning().word()),
            Column.figure(
                    "treatment_exposure_metres",
                    Unit.METRES,
                    0,
                    "dry, clean distance that the rides count as for it",
                    r -> r.product().likely().treatmentMetres()),
            FRICTION,
            LOSS,
            SAVED,
            Column.figure(
                    "saved_watts_low",
                    Unit.WATTS,
                    3,
                    "the low end of the model's band, or of what was measured",
                    r -> r.product().savedLow()),
            Column.figure(
                    "saved_watts_high",
                    Unit.WATTS,
                    3,
                    "the high end of the same",
                    r -> r.product().savedHigh()),
            Column.truth(
                    "measured",
                    "whether it was measured with two power meters, more firmly than the model has it",
                    r -> r.product().measured() != null),
            Column.money(
                    "watt_year",
                    "what one watt saved for a year costs; null where nothing is saved or has a price",
                    r -> r.product().perWatt()),
            Column.money(
                    "watt_year_low",
                    "at the high end of what is saved; null likewise",
                    r -> r.product().perWattLow()),
            Column.money(
                    "watt_year_high",
                    "at the low end; null where nothing is saved there",
                    r -> r.product().perWattHigh()),
            Column.figure(
                    "treatments",
                    Unit.COUNT,
                    3,
                    "in the period, renewed at the likely life",
                    r -> r.product().likely().usage().treatments()),
            Column.figure(
                    "treatments_cautious",
                    Unit.COUNT,
                    3,
                    "the same at the cautious life",
                    r -> r.product().cautious().usage().treatments()),
            Column.figure(
                    "treatments_a_year",
                    Unit.COUNT,
                    2,
                    "in a year of such rides",
                    r -> r.product().usageOfYear().treatments()),
            Column.figure(
                    "treatments_a_year_cautious", Unit.COUNT, 2, "the same at the cautious life", Row::cautiousAYear),
            Column.figure(
                    "millilitres_a_year",
                    Unit.MILLILITRES,
                    1,
                    "of the product in such a year; null where it is not known",
                    r -> r.product().usageOfYear().millilitres()),
            Column.figure(
                    "minutes_a_year",
                    Unit.MINUTES,
                    0,
                    "of work in such a year; null where it is not known",
                    r -> r.product().usageOfYear().minutes()),
            Column.object(
                    "year",
                    "what such a year costs",
                    BILL,
                    r -> new Priced(r.year(), r.answer.costs().priced())),
            Column.object(
                    "thousand_km",
                    "what 1000 km cost",
                    BILL,
                    r -> new Priced(r.product().thousand(), r.answer.costs().priced())),
            Column.list("unpriced", "left out for want of a price", r -> unpriced(r.year())),
            Column.list("why", "how the figures come about", r -> CostWhy.lines(r.answer, r.product())));

    /** The fields of all. */
    public static final Columns<CostAnswer> FIELDS = Columns.of(
            Column.time("from", "first instant of the period", a -> a.period().from()),
            Column.time("to", "first instant after it", a -> a.period().to()),
            Column.figure(
                    "days",
                    Unit.COUNT,
                    2,
                    "its length; a week at least",
                    a -> a.period().days()),
            Column.count("rides", "in it, on chains", a -> a.period().rides()),
            Column.count(
                    "rides_with_power", "that tell their power", a -> a.costs().powered()),
            Column.count("rides_without_chain", "left out", a -> a.costs().withoutChain()),
            Column.figure(
                    "metres",
                    Unit.METRES,
                    0,
                    "ridden on chains",
                    a -> a.period().metres()),
            Column.word("baseline", "what savings are measured against", CostAnswer::against),
            Column.figure(
                    "baseline_friction",
                    Unit.TIMES,
                    4,
                    "its coefficient of friction; null where no ride tells",
                    a -> a.costs().loss().mu()),
            Column.figure(
                    "baseline_loss_watts",
                    Unit.WATTS,
                    3,
                    "its mean loss; null where no ride tells",
                    a -> a.costs().loss().watts()),
            Column.figure(
                    "watts",
                    Unit.WATTS,
                    1,
                    "mean power at the crank; null where no ride tells",
                    a -> a.costs().loss().of()),
            Column.id("currency", "of all amounts; null where nothing has a price", CostAnswer::currency),
            Column.money(
                    "an_hour",
                    "what an hour is worth; null where it was not given",
                    a -> a.costs().comparison().anHour()),
            Column.rows("products", "the cheapest watt first", PRODUCTS, CostAnswer::rows));

    /** The products, the cheapest watt first. */
    public List<Row> rows() {
        return costs.ranked().stream().map(c -> new Row(c, this)).toList();
    }

    CostPeriod period() {
        return costs.period();
    }

    private @Nullable String currency() {
        return costs.priced() ? costs.comparison().currency() : null;
    }

    /** What savings are measured against. */
    String against() {
        Costs.Baseline baseline = costs.baseline();
        return baseline instanceof Costs.InPlace other
                ? other.product().product() + " in its place"
                : baseline instanceof Costs.Ridden ? "what you did" : USUAL;
    }

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        if (costs.ranked().isEmpty()) {
            out.lines(nothing());
            return;
        }
        out.line(head());
        out.line();
        out.table(watts().table(rows(), format, this::note));
        out.line();
        out.line("For a year of such rides, "
                + format.distance(period().metres() * period().aYear())
                + (costs.priced() ? ", in " + costs.comparison().currency() : "")
                + (costs.comparison().anHour() == null
                        ? ""
                        : ", an hour at " + costs.comparison().anHour()) + ":");
        out.line();
        out.table(year().table(rows(), format));
        if (!out.quiet()) {
            out.line();
            if (costs.priced()) {
                out.line(costs.comparison().currency()
                        + "/YEAR PER W is what each watt saved costs a year (the cost per"
                        + " watt-year): the product" + (costs.comparison().anHour() == null ? "" : " and your time")
                        + " alone, neither chain nor sprockets. Each BAND is of the figure before it.");
            }
            out.line(
                    "TREATED: how many treatments, each ridden to its typical life, by which all else is worked out, and to its"
                            + " cautious one, as chainage due advises; HOURS: the work at them, cleaning included.");
            List<String> left = unpriced(costs.ranked().get(0).year());
            if (costs.priced() && !left.isEmpty()) {
                out.line("Left out, without a price: " + String.join(", ", left) + ".");
            }
            out.line(ModelBand.caution(costs.loss().band()));
        }
        if (why) {
            out.line();
            costs.ranked().forEach(c -> out.lines(CostWhy.lines(this, c)));
        }
    }

    /** So few treatments a year are shown with a decimal, since they would be rounded to none. */
    private static final int FEW = 2;

    private List<String> nothing() {
        if (analysis.ledger().chains().isEmpty()) {
            return NextStep.next(missing, analysis);
        }
        if (period().rides() > 0) {
            return List.of("No product to compare. Add one: chainage product add NAME --method hot-wax"
                    + " --price \"27.50 EUR\" --amount 400ml --per-treatment 5ml --minutes 20; or name methods:"
                    + " chainage cost hot-wax wet-lube");
        }
        return List.of("No ride on a chain from " + format.date(period().from()) + " to " + format.date(period().to())
                + ". Name another period with --from and --to.");
    }

    private String head() {
        return Formatter.count(period().rides(), "ride", "rides") + ", "
                + format.distance(period().metres()) + ", from "
                + format.date(period().from()) + " to "
                + format.date(period().to())
                + ", worked out as if every chain had been treated with one product only, each time at its typical life. Saved against "
                + against() + ", which loses "
                + Formatter.fixed(costs.loss().watts(), 1) + " W of "
                + Formatter.fixed(costs.loss().of(), 0) + " W"
                + (costs.comparison().effort() == null
                        ? costs.powered() < period().rides()
                                ? " (power is known of " + costs.powered() + " of these rides)."
                                : "."
                        : " (" + costs.comparison().effort()
                                + (costs.powered() == 0 ? "; power is known of no ride)." : ")."))
                + (costs.withoutChain() == 0
                        ? ""
                        : " Left out: " + Formatter.count(costs.withoutChain(), "ride", "rides") + " without a chain.")
                + " Other years: --from DATE --to DATE.";
    }

    /** What is lost and saved, and what a watt costs. */
    public Columns<Row> watts() {
        return Columns.of(
                PRODUCT,
                FRICTION,
                LOSS,
                SAVED,
                Column.<Row>shown(
                        "BAND W",
                        Unit.WATTS,
                        (r, f) -> Formatter.fixed(r.product().savedLow(), 1) + " to "
                                + Formatter.fixed(r.product().savedHigh(), 1)),
                Column.<Row>shown(
                        costs.priced() ? costs.comparison().currency() + "/YEAR PER W" : "A YEAR PER W",
                        Unit.MONEY,
                        (r, f) -> savesTooLittle(r.product())
                                ? "–"
                                : amount(r.product().perWatt())),
                Column.<Row>shown("BAND", Unit.MONEY, (r, f) -> band(r.product())));
    }

    /** A price for each watt of what is shown as 0.0 W would only tell how it was rounded. */
    private static boolean savesTooLittle(CostedProduct c) {
        return c.saved() < SHOWN_WATTS;
    }

    private static String amount(@Nullable Money money) {
        return money == null ? "–" : money.amount();
    }

    private static String band(CostedProduct c) {
        Money low = c.perWattLow();
        Money high = c.perWattHigh();
        return low == null ? "–" : high == null ? "from " + low.amount() : low.amount() + "–" + high.amount();
    }

    private @Nullable String note(Row row) {
        List<String> lines = new ArrayList<>();
        if (!(row.product().saved() > 0)) {
            lines.add("saves nothing against " + against());
        } else if (savesTooLittle(row.product())) {
            lines.add("saves less than " + SHOWN_WATTS + " W: a price for each watt would mean nothing");
        }
        if (row.product().measured() != null) {
            lines.add("saved as measured by " + PairWords.whose(analysis.pairs()) + ", which is firmer than the model");
        }
        String unknown = unknown(row.product());
        if (!unknown.isEmpty()) {
            lines.add(unknown);
        }
        return String.join("; ", lines);
    }

    /** What has to be told before a product's cost is known; empty when nothing is missing. */
    public static String unknown(CostedProduct c) {
        Event.ProductDescribed p = c.likely().product();
        Dose dose = c.likely().dose();
        List<String> options = new ArrayList<>();
        if (p.price() == null) {
            options.add("--price");
        }
        if (p.packageMillilitres() == null) {
            options.add("--amount");
        }
        if (Double.isNaN(dose.millilitres())) {
            options.add("--per-treatment");
        }
        if (options.isEmpty() || p.method() == Method.NONE) {
            return "";
        }
        return "its cost is not known: chainage product "
                + (Method.of(p.product()).isPresent() ? "add NAME --method " : "set ")
                + PlainText.typed(p.product()) + " " + String.join(" … ", options) + " …";
    }

    /** What a year takes and costs; the time only where an hour has a price. */
    public Columns<Row> year() {
        Columns<Row> taken = Columns.of(
                PRODUCT,
                Column.<Row>shown(
                        "TREATED",
                        Unit.COUNT,
                        (r, f) -> r.cautiousAYear() == 0
                                ? "0"
                                : Formatter.range(
                                        r.product().usageOfYear().treatments(),
                                        r.cautiousAYear(),
                                        r.cautiousAYear() < FEW ? 1 : 0)),
                Column.<Row>shown(
                        "HOURS",
                        Unit.COUNT,
                        (r, f) -> Formatter.fixed(r.product().usageOfYear().minutes() / 60, 1)),
                money("PRODUCT", r -> amount(r.year().product())));
        Columns<Row> bill = Columns.of(
                money("CHAIN", r -> part(r.year().chain(), r.year(), PricedThing.Kind.CHAIN)),
                money(
                        "SPROCKETS",
                        r -> part(r.year().sprockets(), r.year(), PricedThing.Kind.CASSETTE, PricedThing.Kind.RINGS)),
                money("A YEAR", r -> amount(r.year().total())),
                money(
                        format.imperial() ? "1000 MI" : "1000 KM",
                        r -> amount(thousand(r.product().thousand().total()))));
        return costs.comparison().anHour() == null
                ? taken.and(bill)
                : taken.and(Columns.of(money("TIME", r -> amount(r.year().time()))))
                        .and(bill);
    }

    private static Column<Row> money(String head, Function<Row, String> shown) {
        return Column.shown(head, Unit.MONEY, (r, f) -> shown.apply(r));
    }

    /** A part of the bill; unknown, not nothing, where all of it is without a price. */
    private static String part(Money sum, Bill bill, PricedThing.Kind... kinds) {
        boolean unknown = sum.minor() == 0
                && bill.unpriced().stream().anyMatch(u -> List.of(kinds).contains(u.kind()));
        return unknown ? "–" : sum.amount();
    }

    private static List<String> unpriced(Bill bill) {
        return bill.unpriced().stream().map(PricedWords::of).toList();
    }

    /** Of a thousand of the rider's own unit. */
    private @Nullable Money thousand(@Nullable Money ofKilometres) {
        return ofKilometres == null || !format.imperial() ? ofKilometres : ofKilometres.times(KILOMETRES_A_MILE);
    }
}
