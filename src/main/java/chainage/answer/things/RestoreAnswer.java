package chainage.answer.things;

import chainage.answer.DryRun;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import org.jspecify.annotations.Nullable;

/**
 * A copy that is in the ledger's place now, or could be.
 *
 * @param copy where it was read from
 * @param ledger where the ledger is
 * @param entries how many facts it states
 * @param rides how many it holds
 * @param kept what was there, under its new name; null when nothing was
 * @param dryRun true when nothing was changed
 */
public record RestoreAnswer(
        String copy,
        String ledger,
        int entries,
        int rides,
        @Nullable String kept,
        boolean dryRun) implements Answer {
    /** Its fields. */
    public static final Columns<RestoreAnswer> FIELDS = Columns.of(
            Column.name("copy", "the copy that was read", RestoreAnswer::copy),
            Column.name("ledger", "where the ledger is", RestoreAnswer::ledger),
            Column.count("entries", "facts that the copy states", RestoreAnswer::entries),
            Column.count("rides", "rides that the copy holds", RestoreAnswer::rides),
            Column.name("kept", "what was there, under its new name", RestoreAnswer::kept),
            Column.truth("dry_run", "true when nothing was changed", RestoreAnswer::dryRun));

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        String what = Formatter.count(entries, "fact", "facts") + " and " + Formatter.count(rides, "ride", "rides");
        DryRun.head(dryRun, out);
        if (dryRun) {
            out.whole(copy + " can be put in its place: " + what);
        } else {
            out.whole(ledger + " is now as " + copy + ": " + what);
        }
        if (kept != null) {
            out.whole("what was there is kept as " + kept);
        }
    }
}
