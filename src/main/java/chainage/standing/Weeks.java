package chainage.standing;

import chainage.attribution.AttributedRide;
import chainage.condition.Condition;
import chainage.exposure.CountedRide;
import chainage.exposure.Exposures;
import chainage.exposure.Factors;
import chainage.exposure.RideExposure;
import chainage.ledger.Method;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.IntFunction;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;

/**
 * The last weeks of a bike, counted back from now: what was ridden in each, on what road and how hard. They stand for
 * the weeks to come.
 *
 * <p>Sums are worked out when first asked for and kept, since all chains of a bike go by them. The futures are the same
 * for all bikes that have as many weeks behind them: a week that went to one bike did not go to another.
 */
final class Weeks {
    private static final Duration WEEK = Duration.ofDays(7);
    /** Without a ride for this long the past says nothing of the weeks to come; our guess. */
    private static final Duration STALE = WEEK.multipliedBy(Dates.STALE_WEEKS);

    /**
     * One ride of them.
     *
     * @param week 0 for the last seven days, 1 for those before, and so on
     */
    private record Ridden(int week, AttributedRide ride, double metres, Condition condition, double wearMetres) {}

    private final int count;
    private final List<Ridden> rides;
    private final Factors factors;
    private final Map<Method, Futures.Sums> treatment = new EnumMap<>(Method.class);
    private Futures.@Nullable Sums wear;
    private final IntFunction<Futures> futures;

    private Weeks(int count, IntFunction<Futures> futures, List<Ridden> rides, Factors factors) {
        this.count = count;
        this.futures = futures;
        this.rides = rides;
        this.factors = factors;
    }

    /**
     * The weeks of every bike that has been ridden lately, by its name.
     *
     * @param exposures of the rides begun by then
     */
    static Map<String, Weeks> byBike(Exposures exposures, Factors factors, Instant at) {
        Map<String, List<CountedRide>> bikes = new LinkedHashMap<>();
        for (CountedRide r : exposures.counted().values()) {
            if (r.ride().bike() != null) {
                bikes.computeIfAbsent(r.ride().bike(), b -> new ArrayList<>()).add(r);
            }
        }
        // The first ride names the stream: the same ledger, the same futures, and one more ride or a new name does not
        // deal all cards anew.
        long seed = exposures.counted().values().stream()
                .findFirst()
                .map(r -> Long.parseLong(r.ride().filed().ride().key().shortestId(), 16))
                .orElse(0L);
        Map<Integer, Futures> drawn = new HashMap<>();
        IntFunction<Futures> futures = count -> drawn.computeIfAbsent(count, n -> new Futures(n, seed));
        Map<String, Weeks> weeks = new LinkedHashMap<>();
        bikes.forEach((bike, all) -> {
            Weeks w = of(all, futures, factors, at);
            if (w != null) {
                weeks.put(bike, w);
            }
        });
        return weeks;
    }

    private static @Nullable Weeks of(
            List<CountedRide> all, IntFunction<Futures> futures, Factors factors, Instant at) {
        List<Ridden> lately = new ArrayList<>();
        int count = 0;
        double metres = 0;
        Instant last = Instant.MIN;
        for (CountedRide r : all) {
            long week = week(r, at);
            if (week >= Futures.YEAR) {
                continue;
            }
            double ridden = r.metres().metres();
            RideExposure e = r.exposure();
            lately.add(new Ridden(
                    (int) week,
                    r.ride(),
                    ridden,
                    r.condition(),
                    // Without a chain no load was worked out; it counts as the reference rider's.
                    e == null ? ridden * factors.wearFactor(r.condition()) : e.wearMetres()));
            count = Math.max(count, (int) week + 1);
            metres += ridden;
            last = r.start();
        }
        if (metres == 0 || last.isBefore(at.minus(STALE))) {
            return null;
        }
        boolean older = week(all.get(0), at) >= Futures.YEAR;
        return new Weeks(older ? Futures.YEAR : count, futures, lately, factors);
    }

    /** In milliseconds: a quotient of durations is worked out in decimals, which took a tenth of an answer's time. */
    private static long week(CountedRide ride, Instant at) {
        return Duration.between(ride.start(), at).toMillis() / WEEK.toMillis();
    }

    /**
     * Share of the bike's rides, by metres, that one chain has had since its first ride at or after an instant; NaN
     * where it had none.
     */
    double share(String chain, Instant since) {
        double own = 0;
        double all = 0;
        for (Ridden r : rides) {
            boolean mine = r.ride().ranOn(chain);
            if (!r.ride().filed().ride().start().isBefore(since) && (mine || own > 0)) {
                all += r.metres();
                own += mine ? r.metres() : 0;
            }
        }
        return own / all;
    }

    /** How a treatment of this method is used up in the weeks to come: metres of dry clean road. */
    Futures.Sums treatment(Method method) {
        return treatment.computeIfAbsent(
                method, m -> sums(r -> r.metres() * factors.treatmentFactor(r.condition(), m)));
    }

    /** What a usual ride uses up of a treatment of this method: the middle one of the last year's, dry clean metres. */
    double usualRide(Method method) {
        double[] each = rides.stream()
                .mapToDouble(r -> r.metres() * factors.treatmentFactor(r.condition(), method))
                .sorted()
                .toArray();
        return each[each.length / 2];
    }

    /** How a chain is worn in the weeks to come: metres of dry clean road at the reference load. */
    Futures.Sums wear() {
        if (wear == null) {
            wear = sums(Ridden::wearMetres);
        }
        return wear;
    }

    private Futures.Sums sums(ToDoubleFunction<Ridden> measure) {
        double[] weekly = new double[count];
        rides.forEach(r -> weekly[r.week()] += measure.applyAsDouble(r));
        return futures.apply(count).sums(weekly);
    }
}
