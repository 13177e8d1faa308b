package chainage.ledger;

import java.util.List;

/**
 * A contradiction among the facts.
 *
 * @param what what contradicts what
 * @param hint what the rider can do
 * @param entries numbers of the entries to blame, at least one
 */
public record Problem(String what, String hint, List<Long> entries) {
    public Problem {
        entries = List.copyOf(entries);
    }
}
