package chainage.answer.cost;

import chainage.answer.loss.PairWords;
import chainage.cost.CostPeriod;
import chainage.cost.CostedProduct;
import chainage.cost.Dose;
import chainage.cost.Replay;
import chainage.cost.Usage;
import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.quantity.Estimate;
import chainage.quantity.Money;
import chainage.render.Formatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** How a product's costs come about, each figure with what it rests on. */
final class CostWhy {
    private CostWhy() {}

    static List<String> lines(CostAnswer answer, CostedProduct c) {
        Formatter format = answer.format();
        CostPeriod period = answer.period();
        Replay r = c.likely();
        List<String> lines = new ArrayList<>();
        lines.add(c.name() + ": " + format.distance(period.metres()) + " wear off as much of it as "
                + format.distance(r.treatmentMetres()) + " of dry clean road ("
                + r.product().method().words() + ")");
        Estimate life = period.lives().of(r.product());
        if (life != null) {
            lines.add("  life " + format.distance(life.likely()) + ", cautious " + format.distance(life.low()) + ": "
                    + Formatter.fixed(r.usage().treatments(), 2) + " treatments ("
                    + Formatter.fixed(c.cautious().usage().treatments(), 2) + " at the cautious life), × 365 / "
                    + Formatter.fixed(period.days(), 1) + " days = "
                    + Formatter.fixed(c.usageOfYear().treatments(), 2)
                    + " a year");
            lines.add("  renewed before the rides of "
                    + (r.renewals().isEmpty()
                            ? "no day"
                            : r.renewals().stream().map(format::date).collect(Collectors.joining(", "))));
        }
        lines.add("  friction " + Formatter.fixed(c.loss().mu(), 3) + " on the mean, cleaning "
                + r.cleaning().word() + ": " + Formatter.fixed(c.loss().watts(), 2) + " W; "
                + answer.against() + " " + Formatter.fixed(answer.costs().loss().mu(), 3) + ": "
                + Formatter.fixed(answer.costs().loss().watts(), 2) + " W; saved " + Formatter.fixed(c.modelled(), 2)
                + " W, give or take 1 % of " + Formatter.fixed(c.loss().of(), 0) + " W");
        Estimate measured = c.measured();
        if (measured != null) {
            lines.add("  " + PairWords.whose(answer.analysis().pairs()) + " have it between "
                    + Formatter.fixed(measured.low(), 2)
                    + " and "
                    + Formatter.fixed(measured.high(), 2) + " W (80 %), in the middle of a life: firmer than the model,"
                    + " so taken in its place");
        }
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
            lines.add("  " + cost + " a year / " + Formatter.fixed(c.saved(), 2) + " W = " + perWatt
                    + " a year per W saved");
        }
        wear(period, c, lines);
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

    private static void wear(CostPeriod period, CostedProduct c, List<String> lines) {
        Usage year = c.usageOfYear();
        for (Map.Entry<String, Double> e : year.chains().entrySet()) {
            Event.ChainDescribed chain =
                    Objects.requireNonNull(period.ledger().chains().get(e.getKey()));
            lines.add("  chain " + e.getKey() + ": " + Formatter.fixed(100 * e.getValue(), 1) + " % of its "
                    + Formatter.number(period.limitPercent().applyAsDouble(chain)) + " % worn in a year"
                    + (chain.price() == null ? "" : ", of " + chain.price()));
        }
        Factors factors = period.factors();
        for (Map.Entry<String, Double> e : year.bikes().entrySet()) {
            Event.BikeDescribed bike =
                    Objects.requireNonNull(period.ledger().bikes().get(e.getKey()));
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
}
