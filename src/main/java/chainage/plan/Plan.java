package chainage.plan;

import chainage.exposure.Factors;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.plan.Purchase.Supply;
import chainage.standing.Standing;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * What to do until a day.
 *
 * @param until last moment looked at
 * @param treatments treatments that fall due until then, and those that chains on the shelf want, the soonest first
 * @param sessions at the pot, by time
 * @param swaps the chain to install next, by bike
 * @param supplies products whose amounts are recorded, by name
 * @param purchases what to buy, by day
 */
public record Plan(
        Instant until,
        List<PlannedTreatment> treatments,
        List<PotSession> sessions,
        List<Swap> swaps,
        List<Supply> supplies,
        List<Purchase> purchases) {
    public Plan {
        treatments = List.copyOf(treatments);
        sessions = List.copyOf(sessions);
        swaps = List.copyOf(swaps);
        supplies = List.copyOf(supplies);
        purchases = List.copyOf(purchases);
    }

    /** Plans from where the chains stand. */
    public static Plan of(Ledger ledger, List<Standing> standings, Factors factors, Instant at, Instant until) {
        double worthwhile = factors.value("plan.worthwhile");
        List<PlannedTreatment> all = standings.stream()
                .map(s -> PlannedTreatment.of(ledger, s, at, worthwhile))
                .filter(Objects::nonNull)
                .sorted(PlannedTreatment.SOONEST_FIRST)
                .toList();
        List<PotSession> sessions = sessions(all, at, until);
        List<PlannedTreatment> treatments = all.stream()
                .filter(n -> within(n.cautious(), until)
                        || sessions.stream().anyMatch(s -> s.treatments().contains(n)))
                .toList();
        List<Swap> swaps = Swap.of(ledger, standings, at, worthwhile);
        List<Supply> supplies = new ArrayList<>();
        List<Purchase> purchases = new ArrayList<>();
        for (Standing s : standings) {
            add(purchases, Purchase.chain(s, at, until));
        }
        for (Event.ProductDescribed p : ledger.products().values()) {
            Supply supply = Supply.of(ledger, p, at);
            if (supply != null) {
                supplies.add(supply);
                add(purchases, Purchase.product(supply, when(p, treatments, sessions, at), at, until));
            }
        }
        purchases.sort((a, b) -> Objects.requireNonNullElse(a.by(), Instant.MAX)
                .compareTo(Objects.requireNonNullElse(b.by(), Instant.MAX)));
        return new Plan(until, treatments, sessions, swaps, supplies, purchases);
    }

    /** Sessions of each product of its own pot, by time. */
    private static List<PotSession> sessions(List<PlannedTreatment> all, Instant at, Instant until) {
        Map<String, List<PlannedTreatment>> byPot = new LinkedHashMap<>();
        all.stream()
                .filter(PlannedTreatment::immersed)
                .forEach(n -> byPot.computeIfAbsent(n.product().product(), p -> new ArrayList<>())
                        .add(n));
        return byPot.values().stream()
                .flatMap(treatments -> PotSession.of(treatments, at, until).stream())
                .sorted((a, b) -> a.by().compareTo(b.by()))
                .toList();
    }

    /** When a product's treatments are planned, by time. */
    private static List<Instant> when(
            Event.ProductDescribed product, List<PlannedTreatment> treatments, List<PotSession> sessions, Instant at) {
        return treatments.stream()
                .filter(n -> n.product().product().equals(product.product()))
                .map(n -> sessions.stream()
                        .filter(s -> s.treatments().contains(n))
                        .map(PotSession::by)
                        .findFirst()
                        .orElse(Objects.requireNonNullElse(n.cautious(), at)))
                .sorted()
                .toList();
    }

    private static void add(List<Purchase> purchases, @Nullable Purchase purchase) {
        if (purchase != null) {
            purchases.add(purchase);
        }
    }

    private static boolean within(@Nullable Instant t, Instant until) {
        return t != null && !t.isAfter(until);
    }
}
