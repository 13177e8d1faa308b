package chainage.cost;

import chainage.exposure.ChainExposure;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.exposure.RideExposure;
import chainage.friction.RideLoss;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.quantity.Estimate;
import chainage.treatment.Lives;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;

/**
 * The rides that costs are worked out from, as they were ridden.
 *
 * @param whole everything ridden on each chain, by name, also outside the period
 * @param from first instant of the period
 * @param to first instant after it
 * @param lives how long a product's treatment lasts
 * @param limitPercent elongation at which a chain is replaced, above 0
 */
public record Season(
        Ledger ledger,
        Factors factors,
        List<ChainExposure> whole,
        Instant from,
        Instant to,
        Lives lives,
        ToDoubleFunction<Event.ChainDescribed> limitPercent) {
    /** A shorter period says too little of a year, and counts as this long, days; our choice. */
    private static final double SHORTEST = 7;

    public Season {
        whole = List.copyOf(whole);
    }

    public static Season of(
            Ledger ledger,
            Exposures exposures,
            Factors factors,
            Instant from,
            Instant to,
            Lives lives,
            ToDoubleFunction<Event.ChainDescribed> limitPercent) {
        return new Season(ledger, factors, List.copyOf(exposures.chains().values()), from, to, lives, limitPercent);
    }

    /** What was ridden on each chain in the period, by name; chains without a ride are left out. */
    public List<ChainExposure> chains() {
        List<ChainExposure> within = new ArrayList<>();
        for (ChainExposure c : whole) {
            List<RideExposure> rides = c.rides().stream().filter(this::within).toList();
            if (!rides.isEmpty()) {
                within.add(new ChainExposure(c.chain(), rides, c.product(), c.treatedAt()));
            }
        }
        return within;
    }

    private boolean within(RideExposure r) {
        Instant start = r.ride().filed().ride().start();
        return !start.isBefore(from) && start.isBefore(to);
    }

    /** Length of the period, days. */
    public double days() {
        return Math.max(SHORTEST, Duration.between(from, to).toMinutes() / 1440.0);
    }

    /** What a figure of the period is multiplied by to stand for a year of 365 days. */
    public double aYear() {
        return 365 / days();
    }

    public int rides() {
        return chains().stream().mapToInt(c -> c.rides().size()).sum();
    }

    /** Metres ridden on chains. */
    public double metres() {
        return chains().stream().mapToDouble(ChainExposure::riddenMetres).sum();
    }

    /** What the rides lost on the treatments that the rider noted; rides before the period have used them up in part. */
    public List<RideLoss> ridden() {
        return whole.stream()
                .flatMap(c -> RideLoss.of(ledger, c, factors, this::likelyMetres).stream())
                .filter(l -> within(l.exposure()))
                .toList();
    }

    /** Likely life of a product, metres of dry clean road; NaN where it has none to lose. */
    double likelyMetres(Event.ProductDescribed product) {
        Estimate life = lives.of(product);
        return life == null ? Double.NaN : life.likely();
    }
}
