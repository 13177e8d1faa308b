package chainage.ledger;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Facts that are stated one command after the other, with what is stated so far after each. The answers are those of
 * {@link Ledger#of}; but a fact that comes after all others of its sort, as nearly every line of a logbook does, is taken
 * in without going through all others once more. For one thread.
 */
public final class Growing {
    private final List<Entry> entries = new ArrayList<>();
    private @Nullable Ledger ledger;
    private Instant last = Instant.MIN;
    private long lastDated;
    private long lastUndated;

    /** What is stated so far; valid until more is. */
    public Ledger ledger() {
        Ledger known = ledger;
        if (known == null) {
            known = Ledger.growing(entries);
            ledger = known;
        }
        return known;
    }

    /** All entries so far, in the order in which they were added. */
    public List<Entry> entries() {
        return entries;
    }

    /** States what is known to be without contradiction, or is to be kept all the same. */
    public void add(Entry entry) {
        boolean after = noteTime(entry);
        entries.add(entry);
        Kind<Event> kind = Kinds.of(entry.event());
        boolean plain = after && !kind.corrects() && !(entry.event() instanceof Event.Changed);
        Ledger grown = ledger;
        if (grown != null && plain && (kind.describes().isEmpty() || grown.isFirstOf(entry.event()))) {
            grown.take(entry);
        } else {
            ledger = null;
        }
    }

    private boolean noteTime(Entry entry) {
        Instant at = entry.happened().orElse(Instant.MIN);
        boolean after;
        if (at.equals(Instant.MIN)) {
            after = entry.number() > lastUndated;
            lastUndated = Math.max(lastUndated, entry.number());
        } else {
            after = at.isAfter(last) || (at.equals(last) && entry.number() > lastDated);
            lastDated = at.isAfter(last) ? entry.number() : Math.max(lastDated, entry.number());
            last = at.isAfter(last) ? at : last;
        }
        return after;
    }

    /**
     * States what belongs together, or nothing of it where that brings a contradiction.
     *
     * @return the contradictions that were not there before; empty where all is stated
     */
    public List<Problem> state(List<Entry> together) {
        List<Problem> known = ledger().problems();
        int before = entries.size();
        together.forEach(this::add);
        List<Problem> fresh = Problem.fresh(known, ledger().problems());
        if (!fresh.isEmpty()) {
            entries.subList(before, entries.size()).clear();
            ledger = null;
        }
        return fresh;
    }
}
