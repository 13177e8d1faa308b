package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.rides.RidesAnswer;
import chainage.attribution.AttributedRide;
import chainage.command.BikeChoice;
import chainage.command.CommandContext;
import chainage.command.Question;
import chainage.render.Columns;
import chainage.typed.CliError;
import chainage.typed.Names;
import chainage.typed.RideSelection;
import chainage.typed.TypedWord;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "rides",
        description = {
            "List rides: when, how far, on which bike and chain, on what road. Latest last.",
            "RIDE is the id to name a ride by, START its local time, RIDDEN the distance that counts for the chain, ROAD what"
                    + " it is taken for (chainage conditions RIDE says why)."
        },
        footer = {
            "Examples:",
            "  chainage rides 2026-05-01..2026-05-31",
            "  chainage rides 2026-05 --chain Moss",
            "  chainage rides --road wet --sort ridden",
            "  chainage rides --limit 10",
            "  chainage rides --unattributed",
            "  chainage rides --all --why    (other activities too, with the reasons)"
        })
final class RidesCommand extends Question {
    @Parameters(arity = "0..*", paramLabel = "RIDE", description = "ids, dates, months, ranges, last (default: all)")
    List<String> selectors = List.of();

    @Mixin
    BikeChoice choice = new BikeChoice();

    @Option(names = "--chain", paramLabel = "CHAIN", description = "only rides on this chain")
    @Nullable
    String chain;

    @Option(
            names = "--road",
            paramLabel = "dry|damp|wet|indoor|dusty|gritty",
            description = "only rides on such a road, in part at least")
    @Nullable
    String road;

    @Option(
            names = "--sort",
            paramLabel = "start|ridden|bike|chain|road",
            description = "by what they are listed, the most last (default: start)")
    @Nullable
    String sort;

    @Option(names = "--limit", paramLabel = "N", description = "only the last N of them")
    int limit = Integer.MAX_VALUE;

    @Option(names = "--unattributed", description = "only rides without a chain")
    boolean unattributed;

    @Option(names = "--guessed", description = "only rides whose file states no sport, counted by their speed")
    boolean guessed;

    @Option(names = "--all", description = "activities that are no rides as well")
    boolean all;

    @Option(names = "--why", description = "show what each verdict rests on")
    boolean why;

    @Override
    public List<Columns<?>> fields() {
        return List.of(RidesAnswer.FIELDS);
    }

    @Override
    public RidesAnswer answer() {
        if (limit < 1) {
            throw CliError.usage("--limit " + limit + " shows nothing", "give 1 or more");
        }
        int last = selectors.indexOf("last") + 1;
        if (last > 0 && last < selectors.size() && selectors.get(last).matches("\\d{1,3}")) {
            throw CliError.usage(
                    "\"last\" is one ride", "for the last " + selectors.get(last) + ": --limit " + selectors.get(last));
        }
        RidesAnswer.Road onRoad = road == null ? null : TypedWord.one("--road", road, RidesAnswer.Road.values());
        RidesAnswer.Order order =
                sort == null ? RidesAnswer.Order.START : TypedWord.one("--sort", sort, RidesAnswer.Order.values());
        CommandContext context = context();
        Analysis analysis = context.analysis();
        Set<String> bikes = choice.names(analysis.ledger());
        String onChain = chain == null ? null : Names.chain(analysis.ledger(), chain);
        List<RidesAnswer.Row> rows = (selectors.isEmpty()
                        ? analysis.rides()
                        : context.rides(analysis).select(selectors, bikes, all || !selectors.contains("last")))
                .stream()
                        .filter(r -> all || byId() || r.verdict() != AttributedRide.Verdict.NOT_A_RIDE)
                        .filter(r -> !guessed || r.guessed())
                        .filter(r -> !unattributed || r.lacksChain())
                        .flatMap(r -> RidesAnswer.Row.of(analysis, r, context.format()))
                        .filter(r -> bikes.isEmpty()
                                || bikes.contains(String.valueOf(r.attributed().bike())))
                        .filter(r ->
                                onChain == null || onChain.equals(r.attributed().chain()))
                        .filter(r -> onRoad == null || r.isOn(onRoad))
                        .toList();
        rows = order.of(rows);
        return new RidesAnswer(
                analysis,
                rows.subList(rows.size() - Math.min(limit, rows.size()), rows.size()),
                why,
                context.format(),
                context.missing());
    }

    /** What is named by its id is shown whatever it is. */
    private boolean byId() {
        return !selectors.isEmpty() && selectors.stream().allMatch(RideSelection::isId);
    }
}
