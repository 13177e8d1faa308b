package chainage.command;

import chainage.analysis.Analysis;
import chainage.render.Columns;
import chainage.typed.CliError;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** A command: parses what was typed, calls one thing, prints. */
public abstract class Action implements Callable<Integer> {
    @Spec
    private @Nullable CommandSpec spec;

    public final CommandSpec spec() {
        if (spec == null) {
            throw new IllegalStateException("command used outside the parser");
        }
        return spec;
    }

    public final Chainage root() {
        return (Chainage) spec().root().userObject();
    }

    public final CommandContext context() {
        CommandContext context = root().openContext();
        if (!root().ledgers.isEmpty() && needsLedger() && context.missing() != null) {
            // Named and not there is mistyped; an answer from nothing would look like one, and be written over a good
            // one.
            throw CliError.noLedger(context.ledgerPath().toString());
        }
        return context;
    }

    /** Carries out a change; see {@link CommandContext#change}. */
    public final Integer change(Function<Analysis, Intended> plan, boolean dryRun) {
        StatedBy by = new StatedBy(spec().root().commandLine().getParseResult(), states());
        return context().change(by, plan, dryRun);
    }

    /** False where it works without a ledger, or makes one. */
    public boolean needsLedger() {
        return true;
    }

    /** True where it states facts of the rider's, so that a logbook may hold it. */
    public boolean states() {
        return false;
    }

    /** What its answers hold for scripts, one declaration a form of answer; empty where it gives none. */
    public List<Columns<?>> fields() {
        return List.of();
    }

    @Override
    public abstract Integer call();
}
