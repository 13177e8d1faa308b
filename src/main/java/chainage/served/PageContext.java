package chainage.served;

import chainage.analysis.Analysis;
import chainage.answer.ChangeAnswer;
import chainage.answer.imports.ImportAnswer;
import chainage.answer.rides.RidesAnswer;
import chainage.command.CommandContext;
import chainage.command.Intended;
import chainage.command.StatedBy;
import chainage.host.Terminal;
import chainage.render.Answer;
import chainage.typed.ExitCode;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/** What a command works with that a page carries out: whatever it says is kept for the page. */
final class PageContext extends CommandContext {
    /** The facts are others than those that were looked at. */
    static final class Stale extends RuntimeException {
        private static final long serialVersionUID = 1L;
    }

    /** A page breaks its lines itself. */
    private static final int UNBROKEN = 1_000_000;

    private final StringWriter out;
    private final StringWriter err;
    private String expected = "";
    private String state = "";
    private @Nullable ChangeAnswer changed;
    private @Nullable ImportAnswer imported;
    private @Nullable RidesAnswer rides;

    private PageContext(CommandContext of, StringWriter out, StringWriter err) {
        super(
                new Terminal(
                        new PrintWriter(out, true),
                        new PrintWriter(err, true),
                        false,
                        UNBROKEN,
                        of.terminal().environment(),
                        of.terminal().clock()),
                of.ledgerPath(),
                of.asked().plain(),
                false,
                false,
                of.runner());
        this.out = out;
        this.err = err;
    }

    /** As of now, unless another time was asked for. */
    public static PageContext of(CommandContext of) {
        return new PageContext(of, new StringWriter(), new StringWriter());
    }

    /** Has a change refused where the facts are others than in this state; empty for any. */
    void expect(String of) {
        expected = of;
    }

    /** How many facts and rides there were when the change was planned: both only grow. */
    String state() {
        return state;
    }

    /** What was changed; null where nothing was, or it was no change of facts. */
    @Nullable
    ChangeAnswer changed() {
        return changed;
    }

    /** What was imported; null where nothing was. */
    @Nullable
    ImportAnswer imported() {
        return imported;
    }

    /** The rides that were asked for; null where none were. */
    @Nullable
    RidesAnswer rides() {
        return rides;
    }

    /** Has an import told together with the one before it; null for none. */
    void join(@Nullable ImportAnswer earlier) {
        imported = earlier;
    }

    /** What was answered in words, a line each. */
    List<String> answered() {
        return out.toString().lines().toList();
    }

    /** What was said beside the answer, a line each. */
    List<String> remarks() {
        return err.toString()
                .lines()
                .map(l -> l.replaceFirst("^chainage: ", ""))
                .toList();
    }

    @Override
    public Integer change(StatedBy by, Function<Analysis, Intended> plan, boolean dryRun) {
        return super.change(
                by,
                before -> {
                    state = before.entries().size() + "." + before.rides().size();
                    // Within the transaction, so that nothing comes between.
                    if (!expected.isEmpty() && !expected.equals(state)) {
                        throw new Stale();
                    }
                    return plan.apply(before);
                },
                dryRun);
    }

    @Override
    public Integer show(Answer answer, boolean csv) {
        if (answer instanceof ChangeAnswer c) {
            changed = c;
            return ExitCode.OK.code();
        } else if (answer instanceof ImportAnswer i) {
            imported = imported == null ? i : i.after(imported);
            return super.show(imported, csv);
        } else if (answer instanceof RidesAnswer r) {
            rides = r;
            return ExitCode.OK.code();
        }
        return super.show(answer, csv);
    }
}
