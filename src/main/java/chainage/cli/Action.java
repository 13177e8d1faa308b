package chainage.cli;

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
        return root().openContext();
    }

    @Override
    public abstract Integer call();
}
