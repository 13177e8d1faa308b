package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.NextStep;
import chainage.cost.CostPeriod;
import chainage.cost.CostedProduct;
import chainage.cost.Currencies;
import chainage.cost.ProductCosts;
import chainage.cost.Watts;
import chainage.exposure.CountedRide;
import chainage.friction.RideLoss;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.quantity.Money;
import chainage.render.CsvTable;
import chainage.render.Json;
import chainage.wear.WearStanding;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.stream.Collectors;
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
            "The rides of a period are replayed as if every chain had been treated with that product alone, in time;"
                    + " chainage explain cost says how."
        },
        footer = {
            "Examples:",
            "  chainage cost",
            "  chainage cost --hour 20 --why",
            "  chainage cost \"Kettle Block\" --baseline \"Marsh Oil\" --from 2026-03-01"
        })
final class CostCommand extends Action {
    private static final Duration YEAR = Duration.ofDays(365);

    @Parameters(arity = "0..*", paramLabel = "PRODUCT", description = "yours or methods (default: all of yours)")
    List<String> products = List.of();

    @Option(
            names = "--baseline",
            paramLabel = "PRODUCT|ridden",
            description = "save against a product in its place, or against what you did (default: wet oil at half its"
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

    /**
     * All that an answer is made of.
     *
     * @param against the baseline in words
     * @param powered rides that tell their power
     * @param priced whether anything has a price
     */
    record Answer(
            ProductCosts comparison,
            Watts baseline,
            String against,
            List<CostedProduct> ranked,
            int powered,
            int withoutChain,
            boolean priced) {}

    @Option(names = "--csv", description = CsvTable.HELP)
    boolean csv;

    @Override
    public Integer call() {
        CommandContext context = context();
        Analysis analysis = context.analysis();
        List<Event.ProductDescribed> wanted = products.isEmpty()
                ? List.copyOf(analysis.ledger().products().values())
                : products.stream()
                        .map(p -> Names.product(analysis.ledger(), p))
                        .distinct()
                        .toList();
        Instant end = to == null ? analysis.at() : context.moment(to).instant();
        CostPeriod season =
                season(analysis, from == null ? null : context.moment(from).instant(), end);
        if (season.rides() == 0 || wanted.isEmpty()) {
            return nothing(context, analysis, season, wanted.isEmpty());
        }
        Answer answer = answer(analysis, season, wanted);
        if (csv) {
            context.out().text(CsvTable.of(new CostJson(answer).json(context)));
        } else if (context.json()) {
            context.out().json(new CostJson(answer).json(context));
        } else {
            new CostText(context, answer).print(why);
        }
        return ExitCode.OK.code();
    }

    /**
     * A period of the rider's rides.
     *
     * @param from null for a year before its end, or since the first ride where that is later
     */
    static CostPeriod season(Analysis analysis, @Nullable Instant from, Instant end) {
        Instant start = from == null ? end.minus(YEAR) : from;
        if (!start.isBefore(end)) {
            throw CliError.usage("the period ends before it starts", "give --from a day before --to");
        }
        if (from == null) {
            Instant earliest = start;
            start = analysis.exposures().counted().values().stream()
                    .map(CountedRide::start)
                    .findFirst()
                    .filter(first -> first.isAfter(earliest) && first.isBefore(end))
                    .orElse(earliest);
        }
        return new CostPeriod(
                analysis.ledger(),
                analysis.exposures(),
                analysis.factors(),
                start,
                end,
                analysis.lives(),
                c -> WearStanding.limit(c, analysis.factors()));
    }

    private Integer nothing(CommandContext context, Analysis analysis, CostPeriod season, boolean noProduct) {
        if (csv) {
            context.say("no ride on a chain in this time, or no product: nothing to print");
        } else if (context.json()) {
            context.out()
                    .json(new Json()
                            .put("from", season.from())
                            .put("to", season.to())
                            .put("rides", season.rides())
                            .put("products", List.of()));
        } else if (analysis.ledger().chains().isEmpty()) {
            context.out().lines(NextStep.next(context.missing(), analysis));
        } else if (noProduct) {
            context.out()
                    .line("No product to compare. Add one: chainage product add NAME --method hot-wax"
                            + " --price \"27.50 EUR\" --amount 400ml --per-treatment 5ml --minutes 20; or name methods:"
                            + " chainage cost hot-wax wet-oil");
        } else {
            context.out()
                    .line("No ride on a chain from "
                            + context.format().date(season.from()) + " to "
                            + context.format().date(season.to()) + ". Name another period with --from and --to.");
        }
        return ExitCode.OK.code();
    }

    private Answer answer(Analysis analysis, CostPeriod season, List<Event.ProductDescribed> wanted) {
        Money anHour = anHour(season, wanted);
        SortedMap<String, List<String>> currencies = Currencies.of(season, wanted, anHour);
        if (currencies.size() > 1) {
            throw CliError.usage(
                    "prices in several currencies cannot be added up: " + listed(currencies),
                    "set them in one, or name products of one currency");
        }
        int powered = powered(season);
        ProductCosts comparison = comparison(
                season, cleaning == null ? null : TreatCommand.cleaning(cleaning), effort, powered, currencies, anHour);
        String against = ProductCosts.USUAL;
        Watts loss;
        if (baseline == null) {
            loss = comparison.usual();
        } else if (baseline.equals("ridden")) {
            against = "what you did";
            loss = comparison.ridden();
        } else {
            Event.ProductDescribed p = Names.product(analysis.ledger(), baseline);
            against = p.product() + " in its place";
            loss = comparison.loss(p);
        }
        return new Answer(
                comparison,
                loss,
                against,
                comparison.rank(wanted, loss),
                powered,
                (int) analysis.exposures().unattributed().stream()
                        .map(r -> r.filed().ride().start())
                        .filter(t -> !t.isBefore(season.from()) && t.isBefore(season.to()))
                        .count(),
                !currencies.isEmpty());
    }

    /**
     * What products are compared by.
     *
     * @param effort in place of the rides' own where the rider states one, or none of them tells it
     * @param currencies of all prices, one at most
     */
    static ProductCosts comparison(
            CostPeriod season,
            @Nullable Cleaning cleaning,
            EffortOptions effort,
            int powered,
            SortedMap<String, List<String>> currencies,
            @Nullable Money anHour) {
        return new ProductCosts(
                season,
                cleaning,
                effort.stated() || powered == 0 ? effort.effort(season.factors().reference()) : null,
                currencies.isEmpty() ? "EUR" : currencies.firstKey(),
                anHour);
    }

    /** How many of its rides tell their power. */
    static int powered(CostPeriod season) {
        return (int) season.ridden().stream().filter(RideLoss::counted).count();
    }

    /** What an hour is worth: bare, in the currency of the prices. */
    private @Nullable Money anHour(CostPeriod season, List<Event.ProductDescribed> wanted) {
        if (hour == null) {
            return null;
        }
        if (!hour.strip().matches("[0-9]+([.][0-9]+)?")) {
            return Typed.price("--hour", hour);
        }
        SortedMap<String, List<String>> currencies = Currencies.of(season, wanted, null);
        if (currencies.size() != 1) {
            throw CliError.usage("--hour " + hour + " says no currency", "add it, such as --hour \"20 EUR\"");
        }
        return Typed.price("--hour", hour + " " + currencies.firstKey());
    }

    private static String listed(Map<String, List<String>> currencies) {
        return currencies.entrySet().stream()
                .map(e -> String.join(", ", e.getValue()) + " in " + e.getKey())
                .collect(Collectors.joining("; "));
    }
}
