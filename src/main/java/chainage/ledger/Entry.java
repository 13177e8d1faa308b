package chainage.ledger;

import java.time.Instant;
import java.util.Optional;
import java.util.function.UnaryOperator;

/**
 * One line of the ledger: a fact, its number, and when it was written down.
 *
 * @param number 1, 2, 3 … in order of writing
 * @param command number of the first entry that the same command wrote; what was said together is taken back together
 * @param recorded when it was written, which is not when it happened
 * @param event the fact
 */
public record Entry(long number, long command, Instant recorded, Event event) {
    /** The same entry with other ids for the rides it speaks of; itself where no id is another. */
    public Entry withRides(UnaryOperator<String> id) {
        return with(new Rewrite() {
            @Override
            public String ride(String before) {
                return id.apply(before);
            }
        });
    }

    Entry with(Rewrite change) {
        Event after = Kinds.of(event).with(event, change);
        return after == event ? this : new Entry(number, command, recorded, after);
    }

    /** True when it describes what bears this name. */
    boolean describes(Event.Named what, String name) {
        Kind<Event> kind = Kinds.of(event);
        return kind.describes().filter(what::equals).isPresent()
                && kind.described(event).equals(name);
    }

    /** When it holds from; empty for facts that have no date of their own, such as a name or a rule. */
    public Optional<Instant> happened() {
        return Kinds.happened(event);
    }
}
