package chainage.cli;

import chainage.cost.Candidate;
import chainage.cost.Comparison;
import chainage.cost.Currencies;
import chainage.cost.Season;
import chainage.cost.Watts;
import chainage.exposure.CountedRide;
import chainage.friction.RideLoss;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.quantity.Money;
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
            Comparison comparison,
            Watts baseline,
            String against,
            List<Candidate> ranked,
            int powered,
            int withoutChain,
            boolean priced) {}

    @Option(names = "--csv", description = Cells.HELP)
    boolean csv;

    @Override
    public Integer call() {
        Desk desk = desk();
        Picture picture = desk.picture();
        List<Event.ProductDescribed> wanted = products.isEmpty()
                ? List.copyOf(picture.ledger().products().values())
                : products.stream()
                        .map(p -> Names.product(picture.ledger(), p))
                        .distinct()
                        .toList();
        Instant end = to == null ? picture.at() : desk.moment(to).instant();
        Season season = season(picture, from == null ? null : desk.moment(from).instant(), end);
        if (season.rides() == 0 || wanted.isEmpty()) {
            return nothing(desk, picture, season, wanted.isEmpty());
        }
        Answer answer = answer(picture, season, wanted);
        if (csv) {
            Cells.print(desk.out(), new CostJson(answer).products(desk));
        } else if (desk.json()) {
            new CostJson(answer).print(desk);
        } else {
            new CostText(desk, answer).print(why);
        }
        return ExitCode.OK.code();
    }

    /**
     * A period of the rider's rides.
     *
     * @param from null for a year before its end, or since the first ride where that is later
     */
    static Season season(Picture picture, @Nullable Instant from, Instant end) {
        Instant start = from == null ? end.minus(YEAR) : from;
        if (!start.isBefore(end)) {
            throw CliError.usage("the period ends before it starts", "give --from a day before --to");
        }
        if (from == null) {
            Instant earliest = start;
            start = picture.exposures().counted().values().stream()
                    .map(CountedRide::start)
                    .findFirst()
                    .filter(first -> first.isAfter(earliest) && first.isBefore(end))
                    .orElse(earliest);
        }
        return new Season(
                picture.ledger(),
                picture.exposures(),
                picture.factors(),
                start,
                end,
                picture.lives(),
                c -> WearStanding.limit(c, picture.factors()));
    }

    private Integer nothing(Desk desk, Picture picture, Season season, boolean noProduct) {
        if (csv) {
            desk.say("no ride on a chain in this time, or no product: nothing to print");
        } else if (desk.json()) {
            new Json()
                    .put("from", season.from())
                    .put("to", season.to())
                    .put("rides", season.rides())
                    .put("products", List.of())
                    .print(desk.out());
        } else if (picture.ledger().chains().isEmpty()) {
            desk.out().println(Guide.next(desk, picture));
        } else if (noProduct) {
            desk.out()
                    .println(DueText.wrap("No product to compare. Add one: chainage product add NAME --method hot-wax"
                            + " --price \"27.50 EUR\" --amount 400ml --per-treatment 5ml --minutes 20; or name methods:"
                            + " chainage cost hot-wax wet-oil"));
        } else {
            desk.out()
                    .println(DueText.wrap(
                            "No ride on a chain from " + desk.words().date(season.from()) + " to "
                                    + desk.words().date(season.to()) + ". Name another period with --from and --to."));
        }
        return ExitCode.OK.code();
    }

    private Answer answer(Picture picture, Season season, List<Event.ProductDescribed> wanted) {
        Money anHour = anHour(season, wanted);
        SortedMap<String, List<String>> currencies = Currencies.of(season, wanted, anHour);
        if (currencies.size() > 1) {
            throw CliError.usage(
                    "prices in several currencies cannot be added up: " + listed(currencies),
                    "set them in one, or name products of one currency");
        }
        int powered = powered(season);
        Comparison comparison = comparison(
                season, cleaning == null ? null : TreatCommand.cleaning(cleaning), effort, powered, currencies, anHour);
        String against = Comparison.USUAL;
        Watts loss;
        if (baseline == null) {
            loss = comparison.usual();
        } else if (baseline.equals("ridden")) {
            against = "what you did";
            loss = comparison.ridden();
        } else {
            Event.ProductDescribed p = Names.product(picture.ledger(), baseline);
            against = p.product() + " in its place";
            loss = comparison.loss(p);
        }
        return new Answer(
                comparison,
                loss,
                against,
                comparison.rank(wanted, loss),
                powered,
                (int) picture.exposures().unattributed().stream()
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
    static Comparison comparison(
            Season season,
            @Nullable Cleaning cleaning,
            EffortOptions effort,
            int powered,
            SortedMap<String, List<String>> currencies,
            @Nullable Money anHour) {
        return new Comparison(
                season,
                cleaning,
                effort.stated() || powered == 0 ? effort.effort(season.factors().reference()) : null,
                currencies.isEmpty() ? "EUR" : currencies.firstKey(),
                anHour);
    }

    /** How many of its rides tell their power. */
    static int powered(Season season) {
        return (int) season.ridden().stream().filter(RideLoss::counted).count();
    }

    /** What an hour is worth: bare, in the currency of the prices. */
    private @Nullable Money anHour(Season season, List<Event.ProductDescribed> wanted) {
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
                .map(e -> Words.safe(String.join(", ", e.getValue())) + " in " + e.getKey())
                .collect(Collectors.joining("; "));
    }
}
