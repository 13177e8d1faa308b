package chainage.cli;

import chainage.plan.Plan;
import java.time.Duration;
import java.time.Instant;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "plan",
        description = {
            "What to do in the coming weeks: treatments, sessions at the pot that serve several chains, the chain to"
                    + " install next on each bike, what to buy.",
            "",
            "Each chain's next treatment is planned, as the chains stand; chainage explain plan says how."
        },
        footer = {
            "Examples:",
            "  chainage plan",
            "  chainage plan --weeks 12 --why",
            "",
            Safety.TREATING,
            "",
            Safety.REPLACING
        })
final class PlanCommand extends Action {
    private static final int LONGEST = 104;

    @Option(names = "--weeks", paramLabel = "N", description = "how far to look ahead, 1 to 104 (default: 6)")
    int weeks = 6;

    @Option(names = "--why", description = "show what each proposal rests on")
    boolean why;

    @Override
    public Integer call() {
        if (weeks < 1 || weeks > LONGEST) {
            throw CliError.usage("--weeks " + weeks + " cannot be", "give 1 to " + LONGEST);
        }
        Desk desk = desk();
        Picture picture = desk.picture();
        Instant until = picture.at().plus(Duration.ofDays(7L * weeks));
        Plan plan = Plan.of(picture.ledger(), picture.standings(), picture.factors(), picture.at(), until);
        if (desk.json()) {
            new PlanJson(picture, plan).print(desk);
        } else if (picture.standings().isEmpty()) {
            desk.out().println(Guide.next(desk, picture));
        } else {
            new PlanText(desk, picture, plan, why).print(weeks);
        }
        return ExitCode.OK.code();
    }
}
