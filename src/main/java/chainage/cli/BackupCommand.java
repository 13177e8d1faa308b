package chainage.cli;

import chainage.answer.things.WrittenAnswer;
import chainage.command.Action;
import chainage.command.CommandContext;
import chainage.host.OutputFile;
import chainage.render.Columns;
import chainage.store.LedgerFile;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

@Command(
        name = "backup",
        description = {
            "Copy the ledger as it stands now into one file that only you can read, also while an import runs.",
            "The copy is a ledger itself: chainage --ledger FILE due. Nothing is overwritten. chainage restore FILE puts it"
                    + " in the ledger's place."
        },
        footer = {"Example:", "  chainage backup /media/stick/chainage-2026-03-01.sqlite"})
final class BackupCommand extends Action {
    @Parameters(paramLabel = "FILE", description = "where the copy goes; nothing may be there yet")
    Path target = Path.of("");

    @Override
    public List<Columns<?>> fields() {
        return List.of(WrittenAnswer.FIELDS);
    }

    @Override
    public Integer call() {
        CommandContext context = context();
        try (LedgerFile ledger = context.openToRead()) {
            OutputFile.make(target, ledger::backup);
            return context.written(target, null, null, target.toString());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
