package chainage.cost;

import chainage.exposure.ChainExposure;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.exposure.RideExposure;
import chainage.friction.RideLoss;
import chainage.friction.RideLosses;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.treatment.Lives;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;

/** The rides that costs are worked out from, as they were ridden. For one thread. */
public final class CostPeriod {
    /** A shorter period says too little of a year, and counts as this long, days; our choice. */
    private static final double SHORTEST = 7;

    private final Ledger ledger;
    private final Factors factors;
    private final List<ChainExposure> whole;
    private final List<ChainExposure> chains = new ArrayList<>();
    private final Instant from;
    private final Instant to;
    private final Lives lives;
    private final ToDoubleFunction<Event.ChainDescribed> limitPercent;
    private final RideLosses losses;

    /**
     * The rides of a period.
     *
     * @param from first instant of the period
     * @param to first instant after it
     * @param lives how long a product's treatment lasts
     * @param limitPercent elongation at which a chain is replaced, above 0
     */
    public CostPeriod(
            Ledger ledger,
            Exposures exposures,
            Factors factors,
            Instant from,
            Instant to,
            Lives lives,
            ToDoubleFunction<Event.ChainDescribed> limitPercent) {
        this.ledger = ledger;
        this.factors = factors;
        this.whole = List.copyOf(exposures.chains().values());
        this.from = from;
        this.to = to;
        this.lives = lives;
        this.limitPercent = limitPercent;
        this.losses = new RideLosses(ledger, factors);
        for (ChainExposure c : whole) {
            List<RideExposure> rides = c.rides().stream().filter(this::within).toList();
            if (!rides.isEmpty()) {
                chains.add(new ChainExposure(c.chain(), rides, c.product(), c.treatedAt()));
            }
        }
    }

    public Ledger ledger() {
        return ledger;
    }

    public Factors factors() {
        return factors;
    }

    /** Everything ridden on each chain, by name, also outside the period. */
    List<ChainExposure> whole() {
        return whole;
    }

    /** What was ridden on each chain in the period, by name; chains without a ride are left out. */
    public List<ChainExposure> chains() {
        return List.copyOf(chains);
    }

    /** First instant of the period. */
    public Instant from() {
        return from;
    }

    /** First instant after the period. */
    public Instant to() {
        return to;
    }

    /** How long a product's treatment lasts. */
    public Lives lives() {
        return lives;
    }

    /** Elongation at which a chain is replaced, per cent. */
    public ToDoubleFunction<Event.ChainDescribed> limitPercent() {
        return limitPercent;
    }

    /** Losses of rides, also on other treatments. */
    RideLosses losses() {
        return losses;
    }

    private boolean within(RideExposure r) {
        Instant start = r.start();
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
        return chains.stream().mapToInt(c -> c.rides().size()).sum();
    }

    /** Metres ridden on chains. */
    public double metres() {
        return chains.stream().mapToDouble(ChainExposure::riddenMetres).sum();
    }

    /** What the rides lost on the treatments that the rider noted; rides before the period have used them up in part. */
    public List<RideLoss> ridden() {
        return whole.stream()
                .flatMap(c -> losses.of(c, lives::likelyMetres).stream())
                .filter(l -> within(l.exposure()))
                .toList();
    }
}
