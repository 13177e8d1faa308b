package chainage.logbook;

import chainage.ledger.Event;
import chainage.ledger.Ledger;
import java.util.List;

/** Carries a line out as the command that it is. */
@FunctionalInterface
public interface Statement {
    /**
     * What the line states.
     *
     * @param before all that is stated before it
     * @return at least one fact
     * @throws Refusal when the command refuses it, or is none that states facts
     */
    List<Event> of(Line line, Ledger before) throws Refusal;
}
