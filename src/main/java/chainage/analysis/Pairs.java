package chainage.analysis;

import chainage.drivetrain.Drivetrain;
import chainage.exposure.Factors;
import chainage.exposure.RideExposure;
import chainage.friction.Effort;
import chainage.friction.Friction;
import chainage.friction.RideLoss;
import chainage.ledger.Cleaning;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Method;
import chainage.meter.MeasuredLoss;
import chainage.meter.OtherLoss;
import chainage.meter.RidePair;
import chainage.meter.RidePairs;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * The rides that two meters recorded, and what they tell.
 *
 * @param rides by start
 * @param learnt of those that could be laid over each other and whose chain is known
 * @param others what other riders' have shown, from which that starts
 */
public record Pairs(List<RidePair> rides, MeasuredLoss learnt, OtherLoss others) {
    public Pairs {
        rides = List.copyOf(rides);
    }

    static Pairs of(Analysis analysis) {
        Map<String, RideLoss> losses = new HashMap<>();
        if (!RidePairs.twice(analysis.rides()).isEmpty()) {
            Losses.of(analysis, List.of())
                    .forEach(l -> losses.put(l.exposure().ride().id(), l));
        }
        Factors factors = analysis.factors();
        List<RidePair> rides = RidePairs.of(analysis.ledger(), analysis.rides(), losses, new Friction(factors));
        OtherLoss others = analysis.others().loss();
        Map<String, Method> methods = new TreeMap<>();
        // Nothing is asked of products before something was seen.
        if (!rides.isEmpty() || !others.isEmpty()) {
            analysis.exposures().chains().values().stream()
                    .flatMap(c -> Stream.concat(
                            Stream.of(c.product()), c.rides().stream().map(RideExposure::product)))
                    .forEach(p -> methods.put(p.product(), p.method()));
        }
        if (!others.isEmpty()) {
            analysis.ledger().products().values().forEach(p -> methods.put(p.product(), p.method()));
        }
        MeasuredLoss learnt = MeasuredLoss.of(
                rides.stream().flatMap(r -> r.seen().stream()).toList(),
                List.copyOf(methods.keySet()),
                others.isEmpty() ? MeasuredLoss.Start.TABLE : others.start(methods::get),
                MeasuredLoss.Meters.of(factors),
                (before, behind) -> calibration(analysis.ledger(), before, behind));
        return new Pairs(rides, learnt, others);
    }

    private static @Nullable Double calibration(Ledger ledger, String before, String behind) {
        Double a = high(ledger, before);
        Double b = high(ledger, behind);
        return a == null || b == null ? null : Math.log1p(b / 100) - Math.log1p(a / 100);
    }

    private static @Nullable Double high(Ledger ledger, String meter) {
        Event.MeterPlaced placed = ledger.meters().get(meter);
        return placed == null ? null : placed.readsHighPercent();
    }

    /** A state of a product, deeply cleaned, at an effort on a bike. */
    public static MeasuredLoss.State state(
            Analysis analysis, Event.ProductDescribed product, double used, Drivetrain bike, Effort effort) {
        return state(analysis, product, Cleaning.DEEP, used, bike, effort);
    }

    /** A state of a product at an effort on a bike. */
    public static MeasuredLoss.State state(
            Analysis analysis,
            Event.ProductDescribed product,
            Cleaning cleaning,
            double used,
            Drivetrain bike,
            Effort effort) {
        Friction friction = new Friction(analysis.factors());
        Method method = product.method();
        double perMu = friction.model(bike).loss(effort, 1).watts() / effort.watts();
        return new MeasuredLoss.State(
                product.product(), perMu, friction.mu(method, cleaning, 0), friction.mu(method, cleaning, used));
    }

    /** From this chance on a sign is told; our choice. */
    public static final double TOLD = 0.95;

    /**
     * What the end of a product's treatment takes of the power more than its beginning.
     *
     * @param more the share
     * @param measured whether rides tell enough of it at all
     */
    public record Rise(MeasuredLoss.Share more, boolean measured) {
        /** True where it is as good as certain that a life costs something; only then is it called measured. */
        public boolean isTold() {
            return measured && more.positive() >= TOLD;
        }
    }

    /** The rise over a product's life, deeply cleaned, at the reference rider's effort. */
    public Rise rise(Analysis analysis, Event.ProductDescribed product) {
        Drivetrain usual = analysis.factors().drivetrain(null);
        Effort effort = Effort.of(analysis.factors().reference());
        MeasuredLoss.State fresh = state(analysis, product, 0, usual, effort);
        MeasuredLoss.State end = state(analysis, product, 1, usual, effort);
        return new Rise(learnt.more(end, fresh), isMeasured(end, fresh));
    }

    /** The same by what others' rides alone say. */
    public MeasuredLoss.Share riseByOthers(Analysis analysis, Event.ProductDescribed product) {
        Drivetrain usual = analysis.factors().drivetrain(null);
        Effort effort = Effort.of(analysis.factors().reference());
        return MeasuredLoss.of(
                        List.of(),
                        List.of(product.product()),
                        others.start(p -> product.method()),
                        MeasuredLoss.Meters.of(analysis.factors()),
                        (before, behind) -> null)
                .more(state(analysis, product, 1, usual, effort), state(analysis, product, 0, usual, effort));
    }

    /** True when rides tell enough of how two states differ: its spread is at most half of what it was before any. */
    public boolean isMeasured(MeasuredLoss.State a, MeasuredLoss.State b) {
        return !isEmpty() && learnt.narrowed(a, b) <= 0.5;
    }

    /** True when no ride measured anything, neither this rider's nor others'. */
    public boolean isEmpty() {
        return learnt.seen().isEmpty() && others.isEmpty();
    }

    /** Whether a ride measured something on a product, this rider's or others'. */
    public boolean isSeen(Event.ProductDescribed product) {
        return learnt.rides(product.product()) > 0 || others.shown(product).rides() > 0;
    }

    /** The pair that a ride is; empty for most. */
    public Optional<RidePair> of(String ride) {
        return rides.stream().filter(r -> r.ride().id().equals(ride)).findFirst();
    }
}
