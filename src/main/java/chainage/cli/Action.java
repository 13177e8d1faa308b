package chainage.cli;

import chainage.render.Columns;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** A command: parses what was typed, calls one thing, prints. */
abstract class Action implements Callable<Integer> {
    @Spec
    private @Nullable CommandSpec spec;

    final CommandSpec spec() {
        if (spec == null) {
            throw new IllegalStateException("command used outside the parser");
        }
        return spec;
    }

    final Chainage root() {
        return (Chainage) spec().root().userObject();
    }

    final CommandContext context() {
        CommandContext context = root().openContext();
        if (!root().ledgers.isEmpty() && needsLedger() && context.missing() != null) {
            // Named and not there is mistyped; an answer from nothing would look like one, and be written over a good
            // one.
            throw CliError.noLedger(context.ledgerPath().toString());
        }
        return context;
    }

    /** False where it works without a ledger, or makes one. */
    boolean needsLedger() {
        return true;
    }

    /** True where it states facts of the rider's, so that a logbook may hold it. */
    boolean states() {
        return false;
    }

    /** What its answers hold for scripts, one declaration a form of answer; empty where it gives none. */
    List<Columns<?>> fields() {
        return List.of();
    }

    @Override
    public abstract Integer call();
}
