package chainage.answer;

import chainage.ledger.Event;
import chainage.ledger.Installation;
import chainage.ledger.Misfit;
import chainage.ledger.Problem;
import chainage.quantity.PlainText;
import chainage.render.Formatter;
import java.time.Instant;
import java.util.function.LongFunction;

/**
 * Contradictions among the facts in words.
 *
 * @param format whose clock the times are by
 */
public record ProblemWords(Formatter format) {
    /** What contradicts what. */
    public String of(Problem problem) {
        return of(problem, entry -> "entry " + entry);
    }

    /**
     * What contradicts what.
     *
     * @param named what an entry is called by its number
     */
    public String of(Problem problem, LongFunction<String> named) {
        if (problem instanceof Problem.Unknown p) {
            return named.apply(p.entry()) + " names " + p.what().word() + " \"" + p.name()
                    + "\", which is not in the ledger";
        }
        if (problem instanceof Problem.NotBefore p) {
            return named.apply(p.entry()) + " names entry " + p.target() + ", which was not stated before it";
        }
        if (problem instanceof Problem.Alike p) {
            return p.what().word() + "s \"" + p.first() + "\" and \"" + p.second() + "\" differ by case alone";
        }
        if (problem instanceof Problem.NoisyAndQuiet p) {
            return "chain " + p.chain() + " was noisy at " + format.time(p.noisy()) + " ("
                    + named.apply(p.noisyEntry()) + "), and quiet until treated at " + format.time(p.treated()) + " ("
                    + named.apply(p.treatedEntry()) + ")";
        }
        if (problem instanceof Problem.OnTwoBikes p) {
            Event.Installed second = p.second();
            return "chain " + second.chain() + " is installed on " + second.bike() + " from " + format.time(second.at())
                    + " while still on " + p.first().bike() + " since "
                    + format.time(p.first().at());
        }
        if (problem instanceof Problem.OnNoBike p) {
            return "chain " + p.chain() + " is removed at " + format.time(p.at()) + " but is on no bike then";
        }
        if (problem instanceof Problem.TwoChains p) {
            Installation first = p.first();
            Instant to = first.interval().to();
            return "bike " + first.bike() + " has two chains from "
                    + format.time(p.second().interval().from()) + ": " + first.chain() + " (since "
                    + format.time(first.interval().from()) + (to == null ? "" : ", until " + format.time(to)) + ") and "
                    + p.second().chain();
        }
        throw new AssertionError(problem);
    }

    /** What to do about one that the ledger holds. */
    public static String hint(Problem problem) {
        if (problem instanceof Problem.Unknown p) {
            return "add it again: chainage " + p.what().word() + " add " + PlainText.typed(p.name())
                    + ", or take the entry back: " + undo(p.entry());
        }
        if (problem instanceof Problem.NotBefore p) {
            return "take it back: " + undo(p.entry());
        }
        if (problem instanceof Problem.Alike p) {
            return "take one of them back: " + undo(p.secondEntry());
        }
        if (problem instanceof Problem.NoisyAndQuiet p) {
            return "take one back: " + undo(p.noisyEntry()) + ", or state the treatment anew without --heard";
        }
        if (problem instanceof Problem.OnTwoBikes p) {
            return "remove it first: chainage remove "
                    + PlainText.typed(p.second().chain()) + " --on WHEN, or take one back: "
                    + undo(p.secondEntry());
        }
        if (problem instanceof Problem.OnNoBike p) {
            return "take it back: " + undo(p.entry());
        }
        if (problem instanceof Problem.TwoChains p) {
            return "take " + p.first().chain() + " off first, or add --swap to do both at once";
        }
        throw new AssertionError(problem);
    }

    private static String undo(long entry) {
        return "chainage undo " + entry;
    }

    /** What cannot be noted, and why. */
    public String of(Misfit misfit) {
        Object value = misfit.value();
        String said = value instanceof Instant t ? format.time(t) : value == null ? "" : String.valueOf(value);
        return "this cannot be noted (" + misfit.field() + said + misfit.bound() + ")";
    }
}
