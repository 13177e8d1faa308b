package chainage.treatment;

import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.exposure.Leaning;
import chainage.exposure.Mix;
import chainage.exposure.RideExposure;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/**
 * How far one treatment went.
 *
 * @param chain the chain
 * @param product what it was treated with; never of the method none
 * @param treatedAt when
 * @param before what was ridden before the ride in which its end was heard; all that was ridden where none was
 * @param after all that was ridden; more than nothing
 * @param leaning by which both are counted
 * @param end why it went no further
 */
public record Life(
        String chain,
        Event.ProductDescribed product,
        Instant treatedAt,
        Mix before,
        Mix after,
        Leaning leaning,
        End end) {
    /** Why a life was not seen to go further. */
    public enum End {
        /** The rider heard the chain, or said so when treating it: the life ended within the ride before. */
        NOISY,
        /** Treated anew, and nothing noted: it would have lasted longer, or its end went by unremarked. */
        RENEWED,
        /** Treated anew, and said to have been quiet until then. */
        QUIET,
        /** In force, and silent so far. */
        RUNNING
    }

    /** True when the life was seen to its end. */
    public boolean ended() {
        return end == End.NOISY;
    }

    /** Metres of dry clean road, as weighted, by which it was over, or which it lasted at least. */
    public double metres() {
        return after.metres(leaning);
    }

    /** Metres of dry clean road, as weighted, that it lasted at least. */
    public double fromMetres() {
        return before.metres(leaning);
    }

    /** The same counted otherwise. */
    Life counted(Leaning other) {
        return new Life(chain, product, treatedAt, before, after, other, end);
    }

    /** The lives of all treatments that were noted, by chain and time, as the table counts. */
    public static List<Life> of(Ledger ledger, Exposures exposures, Factors factors) {
        List<Life> lives = new ArrayList<>();
        for (Lived lived : Lived.of(ledger, exposures)) {
            Mix before = Mix.NONE;
            Mix after = Mix.NONE;
            for (RideExposure r : lived.rides()) {
                before = after;
                after = after.plus(Mix.of(r, factors));
            }
            if (after.plain() > 0) {
                lives.add(new Life(
                        lived.treated().chain(),
                        lived.product(),
                        lived.treated().at(),
                        lived.end() == End.NOISY ? before : after,
                        after,
                        Leaning.NONE,
                        lived.end()));
            }
        }
        return List.copyOf(lives);
    }
}
