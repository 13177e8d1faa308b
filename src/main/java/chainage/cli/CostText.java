package chainage.cli;

import chainage.cost.Bill;
import chainage.cost.CostPeriod;
import chainage.cost.CostedProduct;
import chainage.cost.Dose;
import chainage.cost.Replay;
import chainage.cost.Usage;
import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.ledger.Method;
import chainage.quantity.Estimate;
import chainage.quantity.Money;
import chainage.render.Formatter;
import chainage.render.Table;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** The comparison of products for people: what a watt costs, what a year costs, and why. */
final class CostText {
    private static final BigDecimal KILOMETRES_A_MILE = new BigDecimal("1.609344");

    private final CommandContext context;
    private final CostCommand.Answer answer;
    private final CostPeriod season;
    private final String currency;

    CostText(CommandContext context, CostCommand.Answer answer) {
        this.context = context;
        this.answer = answer;
        this.season = answer.comparison().period();
        this.currency = answer.comparison().currency();
    }

    void print(boolean why) {
        say(head());
        say("");
        context.out().table(watts());
        say("");
        say("A year like these " + Formatter.fixed(season.days(), 0) + " days, "
                + context.format().distance(season.metres() * season.aYear())
                + (answer.priced() ? ", in " + currency : "")
                + (answer.comparison().anHour() == null
                        ? ""
                        : ", an hour at " + answer.comparison().anHour()) + ":");
        say("");
        context.out().table(year());
        if (!context.quiet()) {
            say("");
            unpriced();
            LossCommand.bandSaid(context, answer.baseline().band());
        }
        if (why) {
            say("");
            answer.ranked().forEach(c -> why(context, answer, c).forEach(this::say));
        }
    }

    private void say(String line) {
        context.out().line(line);
    }

    private String head() {
        return Formatter.count(season.rides(), "ride", "rides") + ", "
                + context.format().distance(season.metres()) + ", from "
                + context.format().date(season.from()) + " to "
                + context.format().date(season.to())
                + ", replayed as if every chain had been treated with one product alone, in time. Saved against "
                + answer.against() + ", which loses "
                + Formatter.fixed(answer.baseline().watts(), 1) + " W of "
                + Formatter.fixed(answer.baseline().of(), 0) + " W"
                + (answer.comparison().effort() == null
                        ? answer.powered() < season.rides()
                                ? " (" + answer.powered() + " of them tell their power)."
                                : "."
                        : " (" + answer.comparison().effort()
                                + (answer.powered() == 0 ? "; no ride tells its power)." : ")."))
                + (answer.withoutChain() == 0
                        ? ""
                        : " Left out: " + Formatter.count(answer.withoutChain(), "ride", "rides")
                                + " without a chain.");
    }

    private Table watts() {
        Table table = new Table()
                .left("PRODUCT")
                .right("FRICTION")
                .right("LOSS W")
                .right("SAVED W")
                .right("BAND W")
                .right(answer.priced() ? currency + "/W-YEAR" : "A W-YEAR")
                .right("BAND");
        for (CostedProduct c : answer.ranked()) {
            table.row(
                    c.name(),
                    Formatter.fixed(c.loss().mu(), 3),
                    Formatter.fixed(c.loss().watts(), 1),
                    Formatter.fixed(c.saved(), 1),
                    Formatter.fixed(c.savedLow(), 1) + " to " + Formatter.fixed(c.savedHigh(), 1),
                    amount(c.perWatt()),
                    band(c));
            if (!(c.saved() > 0)) {
                table.note("saves nothing against " + answer.against());
            }
            String missing = missing(c);
            if (!missing.isEmpty()) {
                table.note(missing);
            }
        }
        return table;
    }

    private static String band(CostedProduct c) {
        Money low = c.perWattLow();
        Money high = c.perWattHigh();
        return low == null ? "–" : high == null ? "from " + low.amount() : low.amount() + "–" + high.amount();
    }

    /** What has to be told before a product's cost is known; empty when nothing is missing. */
    static String missing(CostedProduct c) {
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
                + Formatter.typed(p.product()) + " " + String.join(" … ", options) + " …";
    }

    private Table year() {
        boolean timed = answer.comparison().anHour() != null;
        Table table =
                new Table().left("PRODUCT").right("TREATED").right("HOURS").right("PRODUCT");
        if (timed) {
            table.right("TIME");
        }
        table.right("CHAIN")
                .right("COGS")
                .right("A YEAR")
                .right(context.format().imperial() ? "1000 MI" : "1000 KM");
        for (CostedProduct c : answer.ranked()) {
            Bill bill = c.year();
            List<String> cells = new ArrayList<>(List.of(
                    c.name(),
                    Formatter.fixed(c.usageOfYear().treatments(), 0) + "–"
                            + Formatter.fixed(c.cautious().usage().treatments() * season.aYear(), 0),
                    Formatter.fixed(c.usageOfYear().minutes() / 60, 1),
                    amount(bill.product())));
            if (timed) {
                cells.add(amount(bill.time()));
            }
            cells.addAll(List.of(
                    part(bill.chain(), bill, "chain "),
                    part(bill.sprockets(), bill, "cassette ", "rings "),
                    amount(bill.total()),
                    amount(thousand(c.thousand().total()))));
            table.row(cells.toArray(String[]::new));
        }
        return table;
    }

    /** A part of the bill; unknown, not nothing, where all of it is without a price. */
    private static String part(Money sum, Bill bill, String... names) {
        boolean unknown = sum.minor() == 0
                && bill.unpriced().stream().anyMatch(u -> Arrays.stream(names).anyMatch(u::startsWith));
        return unknown ? "–" : sum.amount();
    }

    /** Of a thousand of the rider's own unit. */
    private @Nullable Money thousand(@Nullable Money ofKilometres) {
        return ofKilometres == null || !context.format().imperial()
                ? ofKilometres
                : ofKilometres.times(KILOMETRES_A_MILE);
    }

    private void unpriced() {
        say("TREATED counts treatments at the likely life and at the cautious one.");
        List<String> left = answer.ranked().get(0).year().unpriced();
        if (answer.priced() && !left.isEmpty()) {
            say("Left out, without a price: " + String.join(", ", left) + ".");
        }
    }

    /** How a product's figures come about, each with what it rests on. */
    static List<String> why(CommandContext context, CostCommand.Answer answer, CostedProduct c) {
        CostPeriod season = answer.comparison().period();
        Replay r = c.likely();
        Method method = r.product().method();
        List<String> lines = new ArrayList<>();
        lines.add(c.name() + ": " + context.format().distance(season.metres()) + " wear off as much of it as "
                + context.format().distance(r.treatmentMetres()) + " of dry clean road (" + method.words() + ")");
        Estimate life = season.lives().of(r.product());
        if (life != null) {
            lines.add("  life " + context.format().distance(life.likely()) + ", cautious "
                    + context.format().distance(life.low()) + ": "
                    + Formatter.fixed(r.usage().treatments(), 2) + " treatments ("
                    + Formatter.fixed(c.cautious().usage().treatments(), 2) + " at the cautious life), × 365 / "
                    + Formatter.fixed(season.days(), 1) + " days = "
                    + Formatter.fixed(c.usageOfYear().treatments(), 2)
                    + " a year");
            lines.add("  renewed before the rides of "
                    + (r.renewals().isEmpty()
                            ? "no day"
                            : r.renewals().stream().map(context.format()::date).collect(Collectors.joining(", "))));
        }
        lines.add("  friction " + Formatter.fixed(c.loss().mu(), 3) + " on the mean, cleaning "
                + r.cleaning().word() + ": " + Formatter.fixed(c.loss().watts(), 2) + " W; "
                + answer.against() + " " + Formatter.fixed(answer.baseline().mu(), 3) + ": "
                + Formatter.fixed(answer.baseline().watts(), 2) + " W; saved " + Formatter.fixed(c.saved(), 2)
                + " W, give or take 1 % of " + Formatter.fixed(c.loss().of(), 0) + " W");
        Dose dose = r.dose();
        if (!Double.isNaN(dose.millilitres())) {
            lines.add("  " + Formatter.number(dose.millilitres()) + " ml"
                    + (Double.isNaN(dose.minutes()) ? "" : " and " + Formatter.number(dose.minutes()) + " minutes")
                    + " a treatment ("
                    + (dose.treatments() == 0
                            ? "as entered"
                            : "mean of " + Formatter.count(dose.treatments(), "treatment", "treatments") + " of yours")
                    + "); a year takes " + Formatter.fixed(c.usageOfYear().millilitres(), 1) + " ml"
                    + price(c));
        }
        Money cost = c.year().treating();
        Money perWatt = c.perWatt();
        if (cost != null && perWatt != null) {
            lines.add("  " + cost + " a year / " + Formatter.fixed(c.saved(), 2) + " W = " + perWatt + " a watt-year");
        }
        wear(season, c, lines);
        return lines;
    }

    private static String price(CostedProduct c) {
        Event.ProductDescribed p = c.likely().product();
        Double content = p.packageMillilitres();
        return p.price() == null || content == null
                ? ""
                : " at " + p.price() + " for " + Formatter.number(content) + " ml: "
                        + c.year().product();
    }

    private static void wear(CostPeriod season, CostedProduct c, List<String> lines) {
        Usage year = c.usageOfYear();
        for (Map.Entry<String, Double> e : year.chains().entrySet()) {
            Event.ChainDescribed chain =
                    Objects.requireNonNull(season.ledger().chains().get(e.getKey()));
            lines.add("  chain " + e.getKey() + ": " + Formatter.fixed(100 * e.getValue(), 1) + " % of its "
                    + Formatter.number(season.limitPercent().applyAsDouble(chain)) + " % worn in a year"
                    + (chain.price() == null ? "" : ", of " + chain.price()));
        }
        Factors factors = season.factors();
        for (Map.Entry<String, Double> e : year.bikes().entrySet()) {
            Event.BikeDescribed bike =
                    Objects.requireNonNull(season.ledger().bikes().get(e.getKey()));
            lines.add("  " + e.getKey() + ": " + Formatter.fixed(e.getValue(), 2) + " chains a year"
                    + sprocket(factors, "cassette", bike.cassettePrice())
                    + sprocket(factors, "rings", bike.ringsPrice()));
        }
    }

    private static String sprocket(Factors factors, String sort, @Nullable Money price) {
        Factors.Factor f = factors.factor("cost." + sort + ".chains");
        return price == null
                ? ""
                : "; " + sort + " " + price + " for " + Formatter.number(f.value()) + " chains (" + f.mark() + ")";
    }

    static String amount(@Nullable Money money) {
        return money == null ? "–" : money.amount();
    }

    static String figure(String pattern, double value) {
        // A figure that rounds to nothing has no sign.
        return Double.isNaN(value)
                ? "–"
                : String.format(Locale.ROOT, pattern, value).replaceFirst("^-(0(?:[.]0*)?)$", "$1");
    }
}
