package chainage.cli;

import chainage.analysis.Analysis;
import chainage.analysis.Snapshot;
import chainage.answer.things.CheckAnswer;
import chainage.command.CommandContext;
import chainage.command.Question;
import chainage.render.Columns;
import chainage.store.Fault;
import chainage.store.LedgerFile;
import chainage.store.PutBack;
import chainage.store.file.LedgerException;
import chainage.typed.ExitCode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "check",
        description = {
            "Verify that the ledger file is undamaged and that no facts contradict each other.",
            "Rides whose date is doubtful are noted beside that.",
            "With --mend what is damaged is taken out, so that it is spoken of no more: the log says where a fact was"
                    + " lost, and what could still be read of it. The ledger as it was is kept beside, under a name that"
                    + " is shown. Bring back first what can be brought back."
        },
        footer = {"Examples:", "  chainage check", "  chainage check --mend"})
final class CheckCommand extends Question {
    private static final String WITHOUT = "; to go on without: chainage check --mend";

    private static final String MEMORY =
            "what earlier answers had kept in the cache was not what follows from the facts; it"
                    + " was deleted, and is worked out anew: please report this";

    @Option(names = "--mend", description = "take out what is damaged, and keep the ledger as it was beside")
    boolean mend;

    @Override
    public List<Columns<?>> fields() {
        return List.of(CheckAnswer.FIELDS);
    }

    @Override
    public CheckAnswer answer() {
        return mend && context().written() ? mended(context()) : check(context());
    }

    @Override
    public Integer call() {
        CheckAnswer answer = answer();
        show(answer);
        return (answer.problems().isEmpty() ? ExitCode.OK : ExitCode.REFUSED).code();
    }

    private static CheckAnswer mended(CommandContext context) {
        try {
            List<String> damaged;
            try (LedgerFile file = context.openToRead()) {
                damaged = file.integrityCheck().stream().map(Fault::what).toList();
            }
            if (damaged.isEmpty()) {
                return check(context);
            }
            Path kept = PutBack.mend(context.ledgerPath(), context::warn).before();
            context.done("what was damaged is taken out");
            return check(context).after(damaged, String.valueOf(kept));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static String hint(Fault.Remedy remedy) {
        return switch (remedy) {
            case COPY -> "put a copy back: chainage restore COPY";
            case FACT -> "put a copy back (chainage restore COPY), or enter it again" + WITHOUT;
            case FILES -> "read the ride files once more: chainage import --again FOLDER" + WITHOUT;
            case WEATHER -> "read the weather records once more: chainage weather add FILE" + WITHOUT;
        };
    }

    private static CheckAnswer check(CommandContext context) {
        if (!context.written()) {
            return new CheckAnswer(List.of(), List.of());
        }
        try (LedgerFile file = context.openToRead()) {
            List<String> broken = file.integrityCheck().stream()
                    .map(f -> f.what() + "; " + hint(f.remedy()))
                    .toList();
            try {
                Snapshot snapshot = context.load(file);
                context.doubt();
                Analysis analysis = context.analysis(snapshot);
                if (!context.remembersRightly(snapshot, analysis)) {
                    broken = Stream.concat(broken.stream(), Stream.of(MEMORY)).toList();
                }
                return CheckAnswer.of(broken, snapshot, analysis, context.format());
            } catch (LedgerException e) {
                if (e.kind() == LedgerException.Kind.CORRUPT && !broken.isEmpty()) {
                    return CheckAnswer.of(broken);
                }
                throw e;
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
