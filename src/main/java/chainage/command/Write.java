package chainage.command;

import chainage.analysis.Analysis;
import chainage.answer.ChangeAnswer;
import chainage.ledger.Event;
import chainage.quantity.Moment;
import chainage.render.Columns;
import chainage.typed.CliError;
import chainage.typed.Names;
import java.time.Duration;
import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** A command that writes facts: it plans them from the analysis before, and the context does the rest. */
public abstract class Write extends Action {
    @Option(names = "--dry-run", description = "say what would change, and write nothing")
    public boolean dryRun;

    /** Notes what an option says, under the field it is kept in; nothing where it was left out. */
    public static <T> void typed(
            Map<String, Object> said, String field, @Nullable T typed, Function<T, ? extends Object> read) {
        if (typed != null) {
            said.put(field, read.apply(typed));
        }
    }

    /** A new name for what has one; another case of the same name is one too. */
    public static Intended renaming(Event.Named what, String from, String to, Collection<String> names) {
        String now = Names.fresh(
                what.word(), to, names.stream().filter(n -> !n.equals(from)).toList());
        if (now.equals(from)) {
            throw CliError.usage(from + " is called that already", "give another name");
        }
        return Intended.of(new Event.Renamed(what, from, now), what.word() + " " + from + " renamed " + now);
    }

    /** The facts to write, given all that is known now. */
    public abstract Intended plan(Analysis before);

    @Override
    public boolean states() {
        return true;
    }

    @Override
    public final List<Columns<?>> fields() {
        return List.of(ChangeAnswer.FIELDS);
    }

    @Override
    public boolean needsLedger() {
        return false;
    }

    @Override
    public final Integer call() {
        return change(this::plan, dryRun);
    }

    /** When something was done; what is still to come cannot have been. */
    public final Moment when(String typed) {
        Moment m = context().moment(typed);
        Instant clock = context().terminal().clock().instant();
        Instant present = clock.isAfter(context().now()) ? clock : context().now();
        if (m.instant().isAfter(present.plus(Duration.ofDays(1)))) {
            throw CliError.usage(
                    context().format().date(m.instant()) + " is still to come", "note what was done, when it is done");
        }
        return m;
    }
}
