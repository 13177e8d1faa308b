package chainage.cli;

import chainage.cost.Bill;
import chainage.cost.CostPeriod;
import chainage.cost.CostedProduct;
import chainage.quantity.Money;
import chainage.render.Json;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/** The comparison of products for scripts. Amounts of money are texts, exact, with their currency. */
record CostJson(CostCommand.Answer answer) {
    Json json(CommandContext context) {
        CostPeriod season = answer.comparison().period();
        return new Json()
                .put("from", season.from())
                .put("to", season.to())
                .number("days", season.days(), 2)
                .put("rides", season.rides())
                .put("rides_with_power", answer.powered())
                .put("rides_without_chain", answer.withoutChain())
                .number("metres", season.metres(), 0)
                .put("baseline", answer.against())
                .number("baseline_friction", answer.baseline().mu(), 4)
                .number("baseline_loss_watts", answer.baseline().watts(), 3)
                .number("watts", answer.baseline().of(), 1)
                .put("currency", answer.priced() ? answer.comparison().currency() : null)
                .put("an_hour", text(answer.comparison().anHour()))
                .put("products", products(context));
    }

    /** The products alone, the cheapest watt first. */
    List<Json> products(CommandContext context) {
        return answer.ranked().stream().map(c -> product(context, c)).toList();
    }

    private Json product(CommandContext context, CostedProduct c) {
        return new Json()
                .put("product", c.name())
                .put("method", c.likely().product().method().word())
                .put("cleaning", c.likely().cleaning().word())
                .number("treatment_exposure_metres", c.likely().treatmentMetres(), 0)
                .number("friction", c.loss().mu(), 4)
                .number("loss_watts", c.loss().watts(), 3)
                .number("saved_watts", c.saved(), 3)
                .number("saved_watts_low", c.savedLow(), 3)
                .number("saved_watts_high", c.savedHigh(), 3)
                .put("watt_year", text(c.perWatt()))
                .put("watt_year_low", text(c.perWattLow()))
                .put("watt_year_high", text(c.perWattHigh()))
                .number("treatments", c.likely().usage().treatments(), 3)
                .number("treatments_cautious", c.cautious().usage().treatments(), 3)
                .number("treatments_a_year", c.usageOfYear().treatments(), 2)
                .number(
                        "treatments_a_year_cautious",
                        c.cautious().usage().treatments()
                                * answer.comparison().period().aYear(),
                        2)
                .number("millilitres_a_year", c.usageOfYear().millilitres(), 1)
                .number("minutes_a_year", c.usageOfYear().minutes(), 0)
                .put("year", bill(c.year()))
                .put("thousand_km", bill(c.thousand()))
                .put("unpriced", c.year().unpriced())
                .put("why", CostText.why(context, answer, c));
    }

    private Json bill(Bill bill) {
        return new Json()
                .put("product", text(bill.product()))
                .put("time", text(bill.time()))
                .put("chain", answer.priced() ? text(bill.chain()) : null)
                .put("sprockets", answer.priced() ? text(bill.sprockets()) : null)
                .put("total", text(bill.total()));
    }

    private static @Nullable String text(@Nullable Money money) {
        return money == null ? null : Objects.toString(money);
    }
}
