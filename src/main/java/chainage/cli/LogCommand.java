package chainage.cli;

import chainage.analysis.Snapshot;
import chainage.answer.things.FactLog;
import chainage.command.Question;
import chainage.render.Answer;
import chainage.render.Columns;
import chainage.typed.CliError;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "log",
        description = "Every fact you stated, by number, with those taken back marked. Nothing is ever deleted.",
        footer = {"Examples:", "  chainage log", "  chainage log --last 5"})
final class LogCommand extends Question {
    @Option(names = "--last", paramLabel = "N", description = "only the last N")
    int last = Integer.MAX_VALUE;

    @Override
    public List<Columns<?>> fields() {
        return List.of(FactLog.LIST.fields());
    }

    @Override
    public Answer answer() {
        if (last < 1) {
            throw CliError.usage("--last " + last + " shows nothing", "give 1 or more");
        }
        Snapshot facts = context().load();
        context().dateBy(facts);
        return FactLog.of(facts.entries(), last, context().format());
    }
}
