package chainage.wear;

import chainage.ledger.Event;
import chainage.ledger.Reading;

/**
 * A reading beside what the table expects.
 *
 * @param measured the reading
 * @param expected elongation that the table expects of all that was ridden before it
 */
public record ReadingSeen(Event.Measured measured, Expected expected) {
    Reading reading() {
        return measured.reading();
    }

    /** What the table expects, per cent. */
    public double expectedPercent() {
        return expected.percent();
    }
}
