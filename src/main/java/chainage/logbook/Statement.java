package chainage.logbook;

import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Misfit;
import chainage.ledger.Problem;
import java.util.List;
import java.util.function.LongFunction;

/** Carries a line out as the command that it is, and has the words for what is in its way. */
public interface Statement {
    /**
     * What the line states.
     *
     * @param before all that is stated before it
     * @return at least one fact
     * @throws Refusal when the command refuses it, or is none that states facts
     */
    List<Event> of(Line line, Ledger before) throws Refusal;

    /**
     * What contradicts what, times by the rider's clock; without a hint.
     *
     * @param named what an entry is called by its number
     */
    String words(Problem problem, LongFunction<String> named);

    /** What cannot be noted, and why; without a hint. */
    String words(Misfit misfit);
}
