package chainage.cli;

import chainage.answer.things.RestoreAnswer;
import chainage.command.Action;
import chainage.command.CommandContext;
import chainage.quantity.PlainText;
import chainage.render.Columns;
import chainage.store.PutBack;
import chainage.typed.ExitCode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "restore",
        description = {
            "Put a copy of the ledger in its place. The copy is looked over first and stays as it is; one of an earlier"
                    + " version is brought up to date on the way.",
            "What was there is kept beside under a name that is shown, so that you can go back. Refused while an import or"
                    + " another command uses the ledger. An export is no copy: chainage import FILE brings it in."
        },
        footer = {
            "Examples:",
            "  chainage restore /media/stick/chainage-2026-03-01.sqlite --dry-run",
            "  chainage restore /media/stick/chainage-2026-03-01.sqlite",
            "  chainage restore ~/.local/share/chainage/ledger.sqlite.before-restore"
        })
final class RestoreCommand extends Action {
    @Parameters(paramLabel = "COPY", description = "a ledger that chainage backup made, or any copy of one")
    Path copy = Path.of("");

    @Option(names = "--dry-run", description = "look the copy over, and change nothing")
    boolean dryRun;

    @Override
    public List<Columns<?>> fields() {
        return List.of(RestoreAnswer.FIELDS);
    }

    @Override
    public boolean needsLedger() {
        return false;
    }

    @Override
    public Integer call() {
        CommandContext context = context();
        try {
            PutBack done = PutBack.put(copy, context.ledgerPath(), dryRun, context::warn);
            if (!dryRun) {
                context.done("the copy is in the ledger's place");
            }
            @Nullable Path before = done.before();
            context.show(
                    new RestoreAnswer(
                            copy.toString(),
                            done.ledger().toString(),
                            done.facts(),
                            done.rides(),
                            before == null ? null : before.toString(),
                            dryRun),
                    false);
            if (before != null && !context.json()) {
                context.say("to go back: chainage restore " + PlainText.typed(before.toString()));
            }
            return ExitCode.OK.code();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
