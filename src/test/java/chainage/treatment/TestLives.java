package chainage.treatment;

import chainage.exposure.Leaning;
import chainage.exposure.Mix;
import chainage.ledger.Event;
import java.time.Instant;

/** Lives made by hand. */
public final class TestLives {
    private TestLives() {}

    /** On dry clean road; one that was heard was heard after a last ride of 20 km. */
    public static Life life(Event.ProductDescribed product, double km, Life.End end) {
        return life(product, dry(end == Life.End.NOISY ? Math.max(0, km - 20) : km), dry(km), end);
    }

    /** On any road. */
    static Life life(Event.ProductDescribed product, Mix before, Mix after, Life.End end) {
        return new Life("Amber", product, Instant.EPOCH, before, after, Leaning.NONE, end);
    }

    static Mix dry(double km) {
        return new Mix(km * 1000, 0, 0, 0);
    }
}
