package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.Safety;
import chainage.answer.plan.PlanAnswer;
import chainage.command.BikeChoice;
import chainage.command.CommandContext;
import chainage.command.Question;
import chainage.plan.Plan;
import chainage.render.Answer;
import chainage.render.Columns;
import chainage.typed.CliError;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "plan",
        description = {
            "What to do in the coming weeks: treatments, waxing sessions that serve several chains, the chain to"
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
final class PlanCommand extends Question {
    private static final int LONGEST = 104;

    @Option(names = "--weeks", paramLabel = "N", description = "how far to look ahead, 1 to 104 (default: 6)")
    int weeks = 6;

    @Mixin
    BikeChoice choice = new BikeChoice();

    @Option(names = "--why", description = "show what each proposal rests on")
    boolean why;

    @Override
    public List<Columns<?>> fields() {
        return List.of(PlanAnswer.FIELDS);
    }

    @Override
    public Answer answer() {
        if (weeks < 1 || weeks > LONGEST) {
            throw CliError.usage("--weeks " + weeks + " cannot be", "give 1 to " + LONGEST);
        }
        CommandContext context = context();
        Analysis analysis = choice.of(context.analysis());
        Instant until = analysis.at().plus(Duration.ofDays(7L * weeks));
        Plan plan = Plan.of(analysis.ledger(), analysis.standings(), analysis.factors(), analysis.at(), until);
        return new PlanAnswer(analysis, plan, weeks, why, context.format(), context.missing());
    }
}
