package chainage.cli;

import chainage.analysis.Analysis;
import chainage.analysis.Costs;
import chainage.answer.cost.CostAnswer;
import chainage.answer.cost.PricedWords;
import chainage.command.CommandContext;
import chainage.command.EffortOptions;
import chainage.command.Question;
import chainage.cost.CostPeriod;
import chainage.cost.Currencies;
import chainage.cost.PricedThing;
import chainage.ledger.Event;
import chainage.quantity.Money;
import chainage.render.Answer;
import chainage.render.Columns;
import chainage.typed.CliError;
import chainage.typed.Names;
import chainage.typed.QuantityParser;
import chainage.typed.Setting;
import java.time.Instant;
import java.util.List;
import java.util.SortedMap;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "cost",
        description = {
            "What each product would have cost on your rides: watts saved, money a watt and a year, minutes.",
            "",
            "The rides of a period (the last year, else name it with --from and --to) are worked out again as if every chain had been treated with that product alone, in time;"
                    + " chainage explain cost says how."
        },
        footer = {
            "Examples:",
            "  chainage cost",
            "  chainage cost --hour 20 --why",
            "  chainage cost \"Kettle Block\" --baseline \"Marsh Oil\" --from 2026-03-01"
        })
final class CostCommand extends Question {
    @Parameters(arity = "0..*", paramLabel = "PRODUCT", description = "yours or methods (default: all of yours)")
    List<String> products = List.of();

    @Option(
            names = "--baseline",
            paramLabel = "PRODUCT|ridden",
            description = "save against a product in its place, or against what you did (default: wet lube at half its"
                    + " life, quick clean)")
    @Nullable
    String baseline;

    @Option(names = "--from", paramLabel = "WHEN", description = "first day (default: 365 days ago, or the first ride)")
    @Nullable
    String from;

    @Option(names = "--to", paramLabel = "WHEN", description = "the day after the last (default: now)")
    @Nullable
    String to;

    @Option(names = "--hour", paramLabel = "AMOUNT", description = "what an hour of yours is worth, such as 20")
    @Nullable
    String hour;

    @Option(
            names = "--cleaning",
            paramLabel = "none|on-bike|quick|deep",
            description = "before every treatment (default: your usual one with each product)")
    @Nullable
    String cleaning;

    @Mixin
    EffortOptions effort = new EffortOptions();

    @Option(names = "--why", description = "show what each figure rests on")
    boolean why;

    @Override
    public List<Columns<?>> fields() {
        return List.of(CostAnswer.FIELDS);
    }

    @Override
    public Answer answer() {
        CommandContext context = context();
        Analysis analysis = context.analysis();
        List<Event.ProductDescribed> wanted = products.isEmpty()
                ? List.copyOf(analysis.ledger().products().values())
                : products.stream()
                        .map(p -> Names.product(analysis.ledger(), p))
                        .distinct()
                        .toList();
        CostPeriod period = period(context, analysis);
        Money anHour = hour == null
                ? null
                : QuantityParser.hour(
                        hour,
                        List.copyOf(Currencies.of(period, wanted, null).keySet()),
                        context.setting(Setting.CURRENCY));
        SortedMap<String, List<PricedThing>> currencies = Currencies.of(period, wanted, anHour);
        if (currencies.size() > 1) {
            throw CliError.usage(
                    "prices in several currencies cannot be added up: " + PricedWords.listed(currencies),
                    "set them in one, or name products of one currency");
        }
        Costs costs = Costs.of(
                analysis,
                period,
                wanted,
                baseline(analysis),
                cleaning == null ? null : Names.cleaning(cleaning),
                effort.stated() ? effort.effort(analysis.factors().reference()) : null,
                anHour);
        return new CostAnswer(analysis, costs, why, context.format(), context.missing());
    }

    private CostPeriod period(CommandContext context, Analysis analysis) {
        Instant end = to == null ? analysis.at() : context.moment(to).instant();
        Instant start = from == null ? null : context.moment(from).instant();
        if (start != null && !start.isBefore(end)) {
            throw CliError.usage("the period ends before it starts", "give --from a day before --to");
        }
        return Costs.period(analysis, start, end);
    }

    private Costs.Baseline baseline(Analysis analysis) {
        if (baseline == null) {
            return new Costs.Usual();
        }
        return baseline.equals("ridden")
                ? new Costs.Ridden()
                : new Costs.InPlace(Names.product(analysis.ledger(), baseline));
    }
}
