package chainage.cli;

import chainage.analysis.Analysis;
import chainage.analysis.Comparison;
import chainage.answer.compare.CompareAnswer;
import chainage.answer.compare.NextPairAnswer;
import chainage.command.CommandContext;
import chainage.command.Question;
import chainage.render.Answer;
import chainage.render.Columns;
import chainage.typed.CliError;
import chainage.typed.Names;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "compare",
        description = {
            "Which product lasts longer, and under which the chain wears more slowly, by your own remarks, renewals and"
                    + " readings; and what is still to be seen."
        },
        footer = {
            "Examples:",
            "  chainage compare",
            "  chainage compare \"Kettle Block\" \"Lantern Drip\" --why",
            "  chainage compare --next",
            "",
            "A verdict takes a chance of 90 %%, and something seen of both products. Life is",
            "learnt when you note what you hear (chainage remark CHAIN noisy), wear when you",
            "measure (chainage measure). How it is worked out: chainage explain compare"
        })
final class CompareCommand extends Question {
    @Parameters(arity = "0..*", paramLabel = "PRODUCT", description = "only these (else all that you have used)")
    List<String> products = List.of();

    @Option(names = "--next", description = "which chain to ride next by both power meters, to learn most")
    boolean next;

    @Option(names = "--why", description = "show the lives, readings and arithmetic behind each verdict")
    boolean why;

    @Override
    public List<Columns<?>> fields() {
        return List.of(CompareAnswer.FIELDS, NextPairAnswer.FIELDS);
    }

    @Override
    public Answer answer() {
        CommandContext context = context();
        Analysis analysis = context.analysis();
        if (next) {
            if (why || !products.isEmpty()) {
                throw CliError.usage("--next is a question of its own", "ask it alone");
            }
            return new NextPairAnswer(analysis);
        }
        Comparison comparison = Comparison.of(analysis, Names.treatments(analysis.ledger(), products));
        return new CompareAnswer(analysis, comparison, why, context.format());
    }
}
