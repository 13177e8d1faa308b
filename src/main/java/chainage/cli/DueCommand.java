package chainage.cli;

import chainage.analysis.Analysis;
import chainage.render.CsvTable;
import chainage.standing.Standing;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "due",
        description = "Which chain is nearest its limit, when to treat it, when to replace it.",
        footer = {
            "Examples:",
            "  chainage due",
            "  chainage due --why Moss       (the rides, the factors, the arithmetic)",
            "  chainage due --fail-if-due    (exit 1 when something is due, for scripts)"
        })
final class DueCommand extends Action {
    @Parameters(arity = "0..*", paramLabel = "CHAIN", description = "only these chains")
    List<String> chains = List.of();

    @Option(names = "--why", description = "show the rides, factors and arithmetic behind each line")
    boolean why;

    @Option(names = "--fail-if-due", description = "exit with 1 when a shown chain is due")
    boolean failIfDue;

    @Option(names = "--csv", description = CsvTable.HELP)
    boolean csv;

    @Override
    public Integer call() {
        return run(context());
    }

    Integer run(CommandContext context) {
        Analysis analysis = context.analysis();
        List<String> wanted =
                chains.stream().map(c -> Names.chain(analysis.ledger(), c)).toList();
        List<Standing> shown = analysis.standings().stream()
                .filter(s -> wanted.isEmpty() || wanted.contains(s.chain()))
                .toList();
        if (shown.isEmpty() && !wanted.isEmpty()) {
            throw CliError.usage(
                    String.join(", ", wanted) + (wanted.size() == 1 ? " is" : " are") + " out of use",
                    "chainage log shows since when, and what to undo");
        }
        if (csv) {
            context.out().text(CsvTable.of(DueJson.of(analysis, shown, context.format())));
        } else if (context.json()) {
            context.out().json(DueJson.of(analysis, shown, context.format()));
        } else {
            DueText text = new DueText(context, analysis);
            text.print(shown);
            if (why) {
                WhyText whyText = new WhyText(context, analysis);
                shown.forEach(whyText::print);
            }
        }
        context.contradictions(
                        analysis.ledger(),
                        analysis,
                        shown.stream().map(Standing::chain).toList())
                .forEach(c -> context.err().line("chainage: " + c));
        if (!analysis.ledger().problems().isEmpty()) {
            return ExitCode.REFUSED.code();
        }
        if (failIfDue && !context.written()) {
            throw new CliError(
                    ExitCode.NO_SUCH_FILE,
                    "there is no ledger at " + context.ledgerPath() + " yet",
                    "import your rides, or name the right one with --ledger");
        }
        return failIfDue && shown.stream().anyMatch(Standing::due) ? ExitCode.DUE.code() : ExitCode.OK.code();
    }

    /** The chain that the answer names: the nearest one on a bike, else the nearest on the shelf. */
    static @Nullable Standing nearest(List<Standing> standings) {
        return Stream.concat(
                        standings.stream().filter(s -> s.bike() != null),
                        standings.stream().filter(s -> s.bike() == null))
                .findFirst()
                .orElse(null);
    }
}
