package chainage.intake;

import chainage.answer.imports.ExportsAnswer;
import chainage.command.CommandContext;
import chainage.importer.Gunzip;
import chainage.store.ExportException;
import chainage.store.LedgerFile;
import chainage.store.Restored;
import chainage.store.file.Scratch;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;

/** Brings exports back in. */
final class Restoring {
    /** So many bytes tell an export from a ride file. */
    private static final int HEAD = 256;

    private Restoring() {}

    /** True when the file is an export, gzipped or not, by its content. */
    static boolean isExport(Inputs.Given file) {
        if (!file.whole()) {
            return false;
        }
        try (InputStream in = Inputs.open(file)) {
            return LedgerFile.promisesExport(in.readNBytes(HEAD));
        } catch (IOException e) {
            return false; // the import says why
        }
    }

    static Integer run(CommandContext context, List<Inputs.Given> exports, boolean dryRun) throws IOException {
        List<ExportsAnswer.Brought> all = new ArrayList<>();
        for (Inputs.Given export : exports) {
            Restored r = bring(context, export, dryRun);
            all.add(new ExportsAnswer.Brought(export.name(), r.entries(), r.entriesKnown(), r.rides(), r.ridesKnown()));
        }
        return context.show(new ExportsAnswer(all, dryRun), false);
    }

    private static Restored bring(CommandContext context, Inputs.Given export, boolean dryRun) throws IOException {
        if (!context.written()) {
            // An export that is refused leaves no ledger behind.
            try (Scratch scratch = Scratch.inTemporary()) {
                Restored restored = bring(LedgerFile.open(scratch.file("trial.sqlite")), export, true);
                if (dryRun) {
                    return restored;
                }
            }
        }
        Restored restored = bring(context.openToWrite(), export, dryRun);
        if (!dryRun) {
            context.done("what was read is kept");
        }
        return restored;
    }

    private static Restored bring(LedgerFile ledger, Inputs.Given export, boolean dryRun) throws IOException {
        try (LedgerFile file = ledger;
                InputStream in = Inputs.open(export)) {
            return file.restore(in, dryRun);
        } catch (Gunzip.Broken e) {
            throw Inputs.broken(export.name(), e, "fetch or copy it again; nothing was taken");
        } catch (ExportException e) {
            throw new CliError(
                    ExitCode.REFUSED,
                    export.name() + ":" + e.line() + ": " + e.what(),
                    e.hint() + "; nothing was taken");
        }
    }
}
