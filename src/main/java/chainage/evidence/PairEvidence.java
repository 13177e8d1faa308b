package chainage.evidence;

import chainage.friction.Friction;
import chainage.friction.RideLoss;
import chainage.ledger.Cleaning;
import chainage.ledger.Method;
import chainage.meter.Laid;
import chainage.meter.MeasuredLoss;
import chainage.meter.RidePair;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BiFunction;
import java.util.function.BiPredicate;
import org.jspecify.annotations.Nullable;

/**
 * What two power meters of somebody's, one before the chain and one behind it, have shown of its loss. The two stay together,
 * since how far they are off each other is as unknown as the loss: nothing else is told of them.
 *
 * @param rides in the order of their letters, which tells nothing of when they were
 */
public record PairEvidence(List<Ride> rides) {
    /** Fewer rides of two meters tell little of a chain; our choice. */
    static final int LEAST_RIDES = 4;

    /** Of a treatment's life, so that no ride can be told by its length; our choice. */
    private static final double STEP_USED = 10;

    /** Further than a treatment is worn off there is nothing to tell. */
    static final double MOST_USED = 3;

    /**
     * A ride that both recorded, as far as it tells of the chain.
     *
     * @param product on it, in the rider's word; null where that is not told
     * @param cleaning before its treatment
     * @param used share of the treatment's life, as its rider knows it, in the middle of the ride; in tenths
     * @param perMu share of the power lost at a coefficient of friction of 1, in the ride's own gears and cadence; in
     *     hundredths
     * @param missing what the meter behind the chain read less than the one before it, per cent; in hundredths
     * @param error of that by the scatter of the minutes, per cent; in hundredths
     */
    public record Ride(
            Method method,
            @Nullable String product,
            Cleaning cleaning,
            double used,
            double perMu,
            double missing,
            double error) {
        private Ride unnamed() {
            return new Ride(method, null, cleaning, used, perMu, missing, error);
        }

        private MeasuredLoss.Seen seen(MeasuredLoss.Pair pair, String product, Friction friction) {
            return new MeasuredLoss.Seen(
                    pair,
                    product,
                    perMu,
                    friction.mu(method, cleaning, 0),
                    friction.mu(method, cleaning, used),
                    Math.log1p(-missing / 100),
                    error / 100);
        }
    }

    public PairEvidence {
        rides = rides.stream().sorted(Comparator.comparing(Ride::toString)).toList();
    }

    /**
     * Of a ledger's rides with two meters, a pair of meters each.
     *
     * @param told whether rides on a method's product are told; null for the plain method
     * @param named whether products are told by their names
     */
    static List<PairEvidence> of(List<RidePair> pairs, BiPredicate<Method, @Nullable String> told, boolean named) {
        Map<MeasuredLoss.Pair, List<Ride>> by = new LinkedHashMap<>();
        for (RidePair p : pairs) {
            Ride ride = p.laid() instanceof Laid.Over over && p.seen().isPresent() && p.loss() != null
                    ? of(p.loss(), over, p.seen().get().perMu(), named)
                    : null;
            if (ride != null && told.test(ride.method(), ride.product())) {
                by.computeIfAbsent(p.pair(), k -> new ArrayList<>()).add(ride);
            }
        }
        return by.values().stream()
                .filter(rides -> rides.size() >= LEAST_RIDES)
                .map(PairEvidence::new)
                .toList();
    }

    private static Ride of(RideLoss loss, Laid.Over over, double perMu, boolean named) {
        Method method = loss.exposure().method();
        String word = loss.exposure().product().product();
        double used = (loss.usedFrom() + loss.usedTo()) / 2;
        return new Ride(
                method,
                named && !word.equals(method.word()) ? word : null,
                loss.cleaning(),
                Math.min(MOST_USED, Math.rint(STEP_USED * used) / STEP_USED),
                hundredths(perMu),
                hundredths(-100 * Math.expm1(over.logRatio())),
                Math.max(0.01, hundredths(100 * over.error())));
    }

    private static double hundredths(double value) {
        return Math.rint(100 * value) / 100;
    }

    /** The same without the products' words. */
    PairEvidence unnamed() {
        return new PairEvidence(rides.stream().map(Ride::unnamed).toList());
    }

    /**
     * As the model of the loss takes it.
     *
     * @param pair a name for the two meters
     * @param name of a product, by method and word, which is null where it is not told
     * @param friction by the reader's table
     */
    public List<MeasuredLoss.Seen> seen(
            String pair, BiFunction<Method, @Nullable String, String> name, Friction friction) {
        MeasuredLoss.Pair meters = new MeasuredLoss.Pair(pair, pair);
        return rides.stream()
                .map(r -> r.seen(meters, name.apply(r.method(), r.product()), friction))
                .toList();
    }
}
