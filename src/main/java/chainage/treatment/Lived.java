package chainage.treatment;

import chainage.exposure.ChainExposure;
import chainage.exposure.Exposures;
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
 * One treatment with the rides that tell of its life.
 *
 * @param product what the chain was treated with
 * @param treated the treatment
 * @param rides on it, by start; where its end was heard, the ride in which it was is the last
 * @param end why it was not seen to go further
 */
public record Lived(Event.ProductDescribed product, Event.Treated treated, List<RideExposure> rides, Life.End end) {
    public Lived {
        rides = List.copyOf(rides);
    }

    /**
     * All treatments that were noted, by chain and time. The factory's own preservative is left out, since nobody noted
     * whether a chain still had it.
     */
    public static List<Lived> of(Ledger ledger, Exposures exposures) {
        List<Lived> all = new ArrayList<>();
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
                List<RideExposure> counted = rides.getOrDefault(treated.at(), List.of()).stream()
                        .filter(r -> noise == null || r.start().isBefore(noise.at()))
                        .toList();
                all.add(new Lived(product, treated, counted, noise != null ? Life.End.NOISY : end(next)));
            }
        }
        return List.copyOf(all);
    }

    /** How a life ended that no remark ended, by what was said at the next treatment. */
    private static Life.End end(Event.@Nullable Treated next) {
        if (next == null) {
            return Life.End.RUNNING;
        }
        return next.heard() == null ? Life.End.RENEWED : next.heard() == Heard.NOISY ? Life.End.NOISY : Life.End.QUIET;
    }
}
