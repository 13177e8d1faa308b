package chainage.trust;

import java.util.List;
import java.util.Locale;

/**
 * A row of the table: one thing that was tried.
 *
 * @param what was done, and what had to hold afterwards
 * @param times it was done
 * @param lost what did not hold, one line each; empty when all is well
 * @param note what else was seen, or why it could not be tried here; may be empty
 */
record Tried(String what, long times, List<String> lost, String note) {
    Tried {
        lost = List.copyOf(lost);
    }

    /** What cannot be tried on this machine. */
    static Tried skipped(String what, String why) {
        return new Tried(what, 0, List.of(), "not tried: " + why);
    }

    String row() {
        return String.format(
                Locale.ROOT,
                "| %s | %,d | %s | %s |",
                what,
                times,
                lost.isEmpty() ? "nothing" : lost.size() + " LOST",
                note);
    }
}
