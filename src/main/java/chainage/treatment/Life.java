package chainage.treatment;

import chainage.exposure.ChainExposure;
import chainage.exposure.Exposures;
import chainage.exposure.RideExposure;
import chainage.ledger.Event;
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
 * @param metres of dry clean road, as weighted, until the end or until now; above 0
 * @param end why it went no further
 */
public record Life(String chain, Event.ProductDescribed product, Instant treatedAt, double metres, End end) {
    /** Why a life was not seen to go further. */
    public enum End {
        /** The rider heard the chain: the life is over. */
        NOISY,
        /** Treated anew before any noise: it would have lasted longer. */
        RENEWED,
        /** In force, and silent so far. */
        RUNNING
    }

    /** True when the life was seen to its end. */
    public boolean ended() {
        return end == End.NOISY;
    }

    /**
     * The lives of all treatments that were noted, by chain and time. Those that were not ridden on say nothing and are
     * left out, as is the factory's own preservative, since nobody noted whether a chain still had it.
     */
    public static List<Life> of(Ledger ledger, Exposures exposures) {
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
                double metres = metres(rides.getOrDefault(treated.at(), List.of()), noise == null ? null : noise.at());
                if (metres > 0) {
                    End end = noise != null ? End.NOISY : i + 1 < spells.size() ? End.RENEWED : End.RUNNING;
                    lives.add(new Life(chain.chain().chain(), product, treated.at(), metres, end));
                }
            }
        }
        return List.copyOf(lives);
    }

    private static double metres(List<RideExposure> rides, @Nullable Instant until) {
        return rides.stream()
                .filter(r -> until == null || r.start().isBefore(until))
                .mapToDouble(RideExposure::treatmentMetres)
                .sum();
    }
}
