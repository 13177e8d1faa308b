package chainage.cli;

import chainage.host.OutputFile;
import chainage.store.LedgerFile;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
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
    public Integer call() {
        CommandContext context = context();
        try (LedgerFile ledger = context.openToRead()) {
            OutputFile.make(target, ledger::backup);
            context.say("written: " + target.toString());
            return ExitCode.OK.code();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
