package chainage.plan;

import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.standing.Standing;
import java.time.Instant;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The chain to install next on a bike.
 *
 * @param bike which
 * @param now the chain on it
 * @param next the chain to take; null when none on the shelf fits
 * @param when the one on it is due; null when no date can be given
 * @param fits why it fits the bike; null without one
 * @param treatFirst whether enough of its treatment is used to renew it before it goes on
 */
public record Swap(
        String bike,
        Standing now,
        @Nullable Standing next,
        @Nullable Instant when,
        @Nullable Fit fits,
        boolean treatFirst) {
    /** Why a chain fits a bike. */
    public enum Fit {
        WAS_ON_IT,
        /** As many links and speeds as the chain on it. */
        AS_LONG_AND_NARROW
    }

    /**
     * Of every bike that has a chain on it, in order of the bikes' names. The bike whose chain is due first chooses first,
     * and no chain is promised to two.
     */
    static List<Swap> of(Ledger ledger, List<Standing> all, Instant at, double worthwhile) {
        Set<String> taken = new HashSet<>();
        return all.stream()
                .filter(s -> s.bike() != null)
                .sorted(Comparator.comparing(s -> Objects.requireNonNullElse(when(s, at), Instant.MAX)))
                .map(on -> {
                    String bike = Objects.requireNonNull(on.bike());
                    Standing next = all.stream()
                            .filter(s -> s.bike() == null
                                    && s.wear().outOfService() == null
                                    && s.wear().used() < 1
                                    && !taken.contains(s.chain()))
                            .filter(s -> fits(ledger, s, on, bike) != null)
                            .min(Comparator.comparingInt((Standing s) -> readiness(s, worthwhile))
                                    .thenComparingDouble(s -> s.wear().used())
                                    .thenComparingDouble(s -> s.treatment().used())
                                    .thenComparing(Standing::chain))
                            .orElse(null);
                    if (next != null) {
                        taken.add(next.chain());
                    }
                    return new Swap(
                            bike,
                            on,
                            next,
                            when(on, at),
                            next == null ? null : fits(ledger, next, on, bike),
                            next != null && readiness(next, worthwhile) > 0);
                })
                .sorted(Comparator.comparing(Swap::bike))
                .toList();
    }

    private static @Nullable Instant when(Standing on, Instant at) {
        return on.due() ? at : on.treatBy() == null ? null : on.treatBy().likely();
    }

    /** Freshly treated before partly used before due. */
    private static int readiness(Standing s, double worthwhile) {
        double used = s.treatment().used();
        return used < worthwhile ? 0 : used < 1 ? 1 : 2;
    }

    private static @Nullable Fit fits(Ledger ledger, Standing s, Standing on, String bike) {
        if (ledger.installations().stream()
                .anyMatch(i -> i.chain().equals(s.chain()) && i.bike().equals(bike))) {
            return Fit.WAS_ON_IT;
        }
        Event.ChainDescribed a = s.exposure().chain();
        Event.ChainDescribed b = on.exposure().chain();
        boolean known = a.speeds() > 0 && a.pitches() > 0;
        return known && a.speeds() == b.speeds() && a.pitches() == b.pitches() ? Fit.AS_LONG_AND_NARROW : null;
    }
}
