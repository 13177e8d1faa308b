package chainage.cli;

import chainage.host.OutputFile;
import chainage.store.LedgerFile;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
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
            description = "write there (default: standard output)")
    @Nullable
    Path output;

    @Option(
            names = "--in-force",
            description = "only your facts as they hold now, with all corrections; it cannot be imported again")
    boolean inForce;

    @Override
    public Integer call() {
        CommandContext context = context();
        try (LedgerFile ledger = context.openToRead()) {
            if (output == null && inForce) {
                ledger.exportInForce(context.terminal().out());
            } else if (output == null) {
                ledger.export(context.terminal().out());
            } else {
                OutputFile.make(output, inForce ? ledger::exportInForce : ledger::export);
                context.say("written: " + output.toString());
            }
            return ExitCode.OK.code();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
