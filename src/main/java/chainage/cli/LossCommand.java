package chainage.cli;

import chainage.analysis.Analysis;
import chainage.analysis.Losses;
import chainage.answer.loss.LossAnswer;
import chainage.answer.loss.MonthsLostAnswer;
import chainage.answer.loss.PairsAnswer;
import chainage.answer.loss.RidesLostAnswer;
import chainage.attribution.AttributedRide;
import chainage.command.CommandContext;
import chainage.command.EffortOptions;
import chainage.command.Question;
import chainage.friction.RideLoss;
import chainage.render.Answer;
import chainage.render.Columns;
import chainage.typed.CliError;
import chainage.typed.Names;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "loss",
        description = {
            "What each chain's state costs in watts: as it stands now at one effort, ride by ride, or month by month.",
            "",
            "A model's figures, never a measurement; chainage explain loss says how they come about."
        },
        footer = {
            "Examples:",
            "  chainage loss",
            "  chainage loss --watts 250 --gear 52x15 --rpm 90",
            "  chainage loss --ride last",
            "  chainage loss Amber --monthly",
            "  chainage loss --pairs"
        })
final class LossCommand extends Question {
    @Parameters(arity = "0..*", paramLabel = "CHAIN", description = "only these chains")
    List<String> chains = List.of();

    @Mixin
    EffortOptions effort = new EffortOptions();

    @Option(names = "--ride", paramLabel = "RIDE", description = "what rides lost: an id, a date, a range, or last")
    @Nullable
    String ride;

    @Option(names = "--monthly", description = "what the rides of each month lost")
    boolean monthly;

    @Option(names = "--pairs", description = "rides that two power meters recorded, and what they measure")
    boolean pairs;

    @Option(names = "--why", description = "show what each figure rests on")
    boolean why;

    @Override
    public List<Columns<?>> fields() {
        return List.of(LossAnswer.FIELDS, RidesLostAnswer.FIELDS, MonthsLostAnswer.FIELDS, PairsAnswer.FIELDS);
    }

    @Override
    public Answer answer() {
        CommandContext context = context();
        Analysis analysis = context.analysis();
        List<String> wanted =
                chains.stream().map(c -> Names.chain(analysis.ledger(), c)).toList();
        if (pairs && (monthly || ride != null || effort.stated() || !chains.isEmpty())) {
            throw CliError.usage("--pairs is a question of its own", "ask it alone");
        }
        if (monthly && ride != null) {
            throw CliError.usage("--monthly and --ride are two questions", "ask one at a time");
        }
        if (effort.stated() && (monthly || ride != null)) {
            throw CliError.usage("rides have efforts of their own", "leave --watts, --gear and --rpm out");
        }
        return answer(context, analysis, wanted);
    }

    private Answer answer(CommandContext context, Analysis analysis, List<String> wanted) {
        if (pairs) {
            return new PairsAnswer(analysis, context.format());
        }
        if (monthly) {
            return new MonthsLostAnswer(Losses.of(analysis, wanted), why, context.format());
        }
        if (ride != null) {
            Set<String> selected = context.rides(analysis).select(List.of(ride), Set.of(), false).stream()
                    .map(AttributedRide::id)
                    .collect(Collectors.toSet());
            List<RideLoss> losses = Losses.of(analysis, wanted).stream()
                    .filter(l -> selected.contains(l.exposure().ride().id()))
                    .toList();
            return new RidesLostAnswer(losses, why, context.format());
        }
        return new LossAnswer(
                analysis,
                wanted,
                effort.effort(analysis.factors().reference()),
                effort.stated(),
                why,
                context.format(),
                context.missing());
    }
}
