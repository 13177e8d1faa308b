package chainage.cli;

import chainage.answer.things.WrittenAnswer;
import chainage.command.Action;
import chainage.command.CommandContext;
import chainage.host.OutputFile;
import chainage.render.Columns;
import chainage.store.LedgerFile;
import chainage.typed.ExitCode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "export",
        description = {
            "Write all facts as lines of JSON: what you stated, each ride with its evidence, where its file lay, and"
                    + " what was refused. The same facts give the same bytes.",
            "chainage import FILE makes the same ledger of it again. It tells where and when you ride, as your ledger"
                    + " does: keep it to yourself. A file named with -o is readable by you alone, and nothing is"
                    + " overwritten."
        },
        footer = {
            "Examples:",
            "  chainage export -o ledger.jsonl",
            "  chainage export | gzip > ledger.jsonl.gz",
            "  chainage --ledger new.sqlite import ledger.jsonl"
        })
final class ExportCommand extends Action {
    @Option(
            names = {"-o", "--output"},
            paramLabel = "FILE",
            description = "write there (- or nothing: standard output)")
    @Nullable
    Path output;

    @Option(
            names = "--in-force",
            description = "only your facts as they hold now, with all corrections; it cannot be imported again")
    boolean inForce;

    @Override
    public List<Columns<?>> fields() {
        return List.of(WrittenAnswer.FIELDS);
    }

    @Override
    public Integer call() {
        CommandContext context = context();
        @Nullable Path file = context.file(output, "an export");
        try (LedgerFile ledger = context.openToRead()) {
            if (file == null && inForce) {
                ledger.exportInForce(context.terminal().out());
            } else if (file == null) {
                ledger.export(context.terminal().out());
            } else {
                OutputFile.make(file, inForce ? ledger::exportInForce : ledger::export);
                return context.written(file, null, null, file.toString());
            }
            return ExitCode.OK.code();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
