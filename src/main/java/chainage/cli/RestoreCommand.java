package chainage.cli;

import chainage.render.Formatter;
import chainage.render.Json;
import chainage.store.PutBack;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "restore",
        description = {
            "Put a copy of the ledger in its place. The copy is looked over first and stays as it is; one of an earlier"
                    + " version is brought up to date on the way.",
            "What was there is kept beside under a name that is told, so that you can go back. Refused while an import or"
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
    public Integer call() {
        CommandContext context = context();
        try {
            PutBack done = PutBack.put(copy, context.ledgerPath(), dryRun, context::warn);
            if (!dryRun) {
                context.done("the copy is in the ledger's place");
            }
            if (context.json()) {
                json(context, done);
            } else {
                text(context, done);
            }
            return ExitCode.OK.code();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private void json(CommandContext context, PutBack done) {
        @Nullable Path before = done.before();
        context.out()
                .json(new Json()
                        .put("copy", copy.toString())
                        .put("ledger", done.ledger().toString())
                        .put("entries", done.facts())
                        .put("rides", done.rides())
                        .put("kept", before == null ? null : before.toString())
                        .put("dry_run", dryRun));
    }

    private void text(CommandContext context, PutBack done) {
        String what = Formatter.count(done.facts(), "fact", "facts") + " and "
                + Formatter.count(done.rides(), "ride", "rides");
        @Nullable Path before = done.before();
        if (dryRun) {
            context.out().whole(copy + " is sound: " + what);
            context.out().line("nothing changed (dry run)");
        } else {
            context.out().whole(done.ledger() + " is now as " + copy + ": " + what);
        }
        if (before != null) {
            context.out().whole("what was there is kept as " + before);
            context.say("to go back: chainage restore " + Formatter.typed(before.toString()));
        }
    }
}
