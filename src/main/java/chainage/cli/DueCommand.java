package chainage.cli;

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

    @Option(names = "--csv", description = Cells.HELP)
    boolean csv;

    @Override
    public Integer call() {
        Desk desk = desk();
        Picture picture = desk.picture();
        List<String> wanted =
                chains.stream().map(c -> Names.chain(picture.ledger(), c)).toList();
        List<Standing> shown = picture.standings().stream()
                .filter(s -> wanted.isEmpty() || wanted.contains(s.chain()))
                .toList();
        if (shown.isEmpty() && !wanted.isEmpty()) {
            throw CliError.usage(
                    String.join(", ", wanted) + (wanted.size() == 1 ? " is" : " are") + " out of use",
                    "chainage log shows since when, and what to undo");
        }
        if (csv) {
            Cells.print(desk.out(), DueJson.chains(picture, shown, desk.words()));
        } else if (desk.json()) {
            DueJson.of(picture, shown, desk.words()).print(desk.out());
        } else {
            DueText text = new DueText(desk, picture);
            text.print(shown);
            if (why) {
                WhyText whyText = new WhyText(desk, picture);
                shown.forEach(whyText::print);
            }
        }
        desk.contradictions(
                        picture.ledger(),
                        picture,
                        shown.stream().map(Standing::chain).toList())
                .forEach(c -> desk.terminal().err().println("chainage: " + Words.safe(c)));
        if (!picture.ledger().problems().isEmpty()) {
            return ExitCode.REFUSED.code();
        }
        if (failIfDue && !desk.written()) {
            throw new CliError(
                    ExitCode.NO_SUCH_FILE,
                    "there is no ledger at " + desk.ledgerPath() + " yet",
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
