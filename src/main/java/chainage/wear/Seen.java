package chainage.wear;

import chainage.ledger.Event;
import chainage.ledger.Reading;

/**
 * A reading beside what the table expects.
 *
 * @param measured the reading
 * @param expectedPercent elongation that the table expects of all that was ridden before it; 0 or more
 */
public record Seen(Event.Measured measured, double expectedPercent) {
    Reading reading() {
        return measured.reading();
    }
}
