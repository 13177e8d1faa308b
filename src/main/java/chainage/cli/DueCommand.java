package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.due.DueAnswer;
import chainage.answer.due.LedgersDue;
import chainage.command.BikeChoice;
import chainage.command.CommandContext;
import chainage.command.Question;
import chainage.command.SeveralLedgers;
import chainage.render.Columns;
import chainage.standing.Standing;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import chainage.typed.Names;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "due",
        description = "Which chain is nearest its limit, when to treat it, when to replace it.",
        footer = {
            "Examples:",
            "  chainage due",
            "  chainage due --why Moss       (the rides, the factors, the arithmetic)",
            "  chainage due --bike Heron --bike Dunlin",
            "  chainage due --fail-if-due    (exit 1 when something is due, for scripts)",
            "  chainage due --ledger hers.sqlite --ledger his.sqlite",
            "  chainage due --ledger depots  (of all ledgers, *.sqlite, in that folder)"
        })
final class DueCommand extends Question {
    @Parameters(arity = "0..*", paramLabel = "CHAIN", description = "only these chains")
    List<String> chains = List.of();

    @Mixin
    BikeChoice choice = new BikeChoice();

    @Option(names = "--why", description = "show the rides, factors and arithmetic behind each line")
    boolean why;

    @Option(
            names = "--fail-if-due",
            description = "exit with 1 when a shown chain is due, or would be after a usual ride")
    boolean failIfDue;

    /** What is left to do once the answer is given. */
    private Runnable later = () -> {};

    @Override
    public List<Columns<?>> fields() {
        return List.of(DueAnswer.FIELDS, LedgersDue.FIELDS);
    }

    @Override
    public DueAnswer answer() {
        return answer(context());
    }

    /** From a context of the caller's. */
    DueAnswer answer(CommandContext context) {
        boolean brief = !why && !csv() && !context.json() && choice.bikes.isEmpty();
        CommandContext.Known known = context.known(brief);
        later = known.later();
        Analysis analysis = choice.of(known.analysis());
        List<String> wanted = chains.stream()
                .map(c -> Names.chainNotBike(analysis.ledger(), c))
                .toList();
        List<Standing> shown = analysis.standings().stream()
                .filter(s -> wanted.isEmpty() || wanted.contains(s.chain()))
                .toList();
        if (shown.isEmpty() && !wanted.isEmpty()) {
            boolean all = choice.bikes.isEmpty();
            throw CliError.usage(
                    String.join(", ", wanted)
                            + (wanted.size() == 1 ? " is" : " are")
                            + (all ? " out of use" : " out of use or on no such bike"),
                    all
                            ? "chainage log shows since when, and what to undo"
                            : "chainage chain shows where each chain is");
        }
        return new DueAnswer(analysis, shown, why, context.format(), context.missing());
    }

    @Override
    public Integer call() {
        SeveralLedgers several = new SeveralLedgers(root());
        if (!several.asked()) {
            return tell(context(), answer());
        }
        if (why || !chains.isEmpty() || !choice.bikes.isEmpty()) {
            throw CliError.usage(
                    "of several ledgers each chain is a line", "name one ledger for a chain, for --bike or for --why");
        }
        LedgersDue answer = several.due();
        several.first().show(answer, csv());
        int told = several.contradictions(answer);
        return told != ExitCode.OK.code() ? told : (failIfDue && answer.isDue() ? ExitCode.DUE : ExitCode.OK).code();
    }

    /** Prints it. */
    Integer tell(CommandContext context, DueAnswer answer) {
        context.show(answer, csv());
        answer.contradictions().forEach(context::warn);
        later.run();
        if (!answer.analysis().ledger().problems().isEmpty()) {
            return ExitCode.REFUSED.code();
        }
        if (failIfDue && !context.written()) {
            throw CliError.noLedger(context.ledgerPath().toString());
        }
        boolean due = answer.shown().stream().anyMatch(s -> s.due() || s.dueBeforeNextRide());
        return (failIfDue && due ? ExitCode.DUE : ExitCode.OK).code();
    }
}
