package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.road.EvidenceAnswer;
import chainage.answer.road.RoadAnswer;
import chainage.command.CommandContext;
import chainage.command.Question;
import chainage.render.Answer;
import chainage.render.Columns;
import chainage.typed.Names;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "conditions",
        description = {
            "How wet and gritty rides were, and why: every piece of evidence, strongest first, with what it says. The first"
                    + " one counts; those below it are not used.",
            "Without a ride: what share of your distance rests on which kind of evidence."
        },
        footer = {
            "Examples:",
            "  chainage conditions",
            "  chainage conditions last",
            "  chainage conditions 2026-02-01..2026-02-14 --bike Dunlin"
        })
final class ConditionsCommand extends Question {
    @Parameters(index = "0", arity = "0..*", paramLabel = "RIDE", description = "id, date, range or last")
    List<String> selectors = List.of();

    @Option(names = "--bike", paramLabel = "BIKE", description = "only rides on this bike")
    @Nullable
    String bike;

    @Override
    public List<Columns<?>> fields() {
        return List.of(EvidenceAnswer.FIELDS, RoadAnswer.FIELDS);
    }

    @Override
    public Answer answer() {
        CommandContext context = context();
        Analysis analysis = context.analysis();
        String onBike = bike == null ? null : Names.bike(analysis.ledger(), bike);
        return selectors.isEmpty()
                ? EvidenceAnswer.of(analysis, onBike, context.format(), context.missing())
                : new RoadAnswer(
                        analysis,
                        context.rides(analysis).select(selectors, onBike == null ? Set.of() : Set.of(onBike), false),
                        context.format());
    }
}
