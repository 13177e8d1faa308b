package chainage.treatment;

import chainage.exposure.ChainExposure;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.exposure.Leaning;
import chainage.exposure.Mix;
import chainage.exposure.RideExposure;
import chainage.ledger.Event;
import chainage.ledger.Heard;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

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

    /**
     * The lives of all treatments that were noted, by chain and time, as the table counts. Those that were not ridden on
     * say nothing and are left out, as is the factory's own preservative, since nobody noted whether a chain still had it.
     */
    public static List<Life> of(Ledger ledger, Exposures exposures, Factors factors) {
        List<Life> lives = new ArrayList<>();
        for (ChainExposure chain : exposures.chains().values()) {
            Map<Instant, List<RideExposure>> rides = new HashMap<>();
            for (RideExposure r : chain.rides()) {
                if (r.treatedAt() != null) {
                    rides.computeIfAbsent(r.treatedAt(), t -> new ArrayList<>()).add(r);
                }
            }
            List<Ledger.TreatmentInterval> spells = ledger.spells(chain.chain().chain());
            for (int i = 0; i < spells.size(); i++) {
                Event.Treated treated = spells.get(i).treated();
                Event.ProductDescribed product = treated == null
                        ? null
                        : ledger.product(treated.product()).orElse(null);
                boolean repeated = i + 1 < spells.size() && spells.get(i + 1).startsWith(treated);
                if (treated == null || product == null || product.method() == Method.NONE || repeated) {
                    continue;
                }
                Event.Remarked noise = spells.get(i).noise();
                Event.Treated next = i + 1 < spells.size() ? spells.get(i + 1).treated() : null;
                End end = noise != null ? End.NOISY : end(next);
                Mix before = Mix.NONE;
                Mix after = Mix.NONE;
                for (RideExposure r : rides.getOrDefault(treated.at(), List.of())) {
                    if (noise == null || r.start().isBefore(noise.at())) {
                        before = after;
                        after = after.plus(Mix.of(r, factors));
                    }
                }
                if (after.plain() > 0) {
                    lives.add(new Life(
                            chain.chain().chain(),
                            product,
                            treated.at(),
                            end == End.NOISY ? before : after,
                            after,
                            Leaning.NONE,
                            end));
                }
            }
        }
        return List.copyOf(lives);
    }

    /** How a life ended that no remark ended, by what was said at the next treatment. */
    private static End end(Event.@Nullable Treated next) {
        if (next == null) {
            return End.RUNNING;
        }
        return next.heard() == null ? End.RENEWED : next.heard() == Heard.NOISY ? End.NOISY : End.QUIET;
    }
}
