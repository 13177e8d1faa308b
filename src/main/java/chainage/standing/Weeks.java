package chainage.standing;

import chainage.exposure.Factors;
import chainage.ledger.Method;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
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

    private final int count;
    private final List<Habits.Ridden> rides;
    private final Instant at;
    private final Factors factors;
    private final Map<Method, Futures.Sums> treatment = new EnumMap<>(Method.class);
    private final Map<Method, Usual> usual = new EnumMap<>(Method.class);
    private Futures.@Nullable Sums wear;
    private final IntFunction<Futures> futures;

    private Weeks(int count, IntFunction<Futures> futures, List<Habits.Ridden> rides, Factors factors, Instant at) {
        this.count = count;
        this.at = at;
        this.futures = futures;
        this.rides = rides;
        this.factors = factors;
    }

    /**
     * The weeks of every bike that has been ridden lately, by its name.
     *
     * @param habits of the rides begun by then, of a year before it at least
     */
    static Map<String, Weeks> byBike(Habits habits, Factors factors, Instant at) {
        Map<Integer, Futures> drawn = new HashMap<>();
        IntFunction<Futures> futures = count -> drawn.computeIfAbsent(count, n -> new Futures(n, habits.seed()));
        Map<String, Weeks> weeks = new LinkedHashMap<>();
        habits.bikes().forEach((bike, habit) -> {
            Weeks w = of(habit, futures, factors, at);
            if (w != null) {
                weeks.put(bike, w);
            }
        });
        return weeks;
    }

    private static @Nullable Weeks of(Habits.Habit habit, IntFunction<Futures> futures, Factors factors, Instant at) {
        List<Habits.Ridden> lately = new ArrayList<>();
        int count = 0;
        double metres = 0;
        Instant last = Instant.MIN;
        for (Habits.Ridden r : habit.rides()) {
            long week = week(r.start(), at);
            if (week >= Futures.YEAR) {
                continue;
            }
            lately.add(r);
            count = Math.max(count, (int) week + 1);
            metres += r.metres();
            last = r.start();
        }
        if (metres == 0 || last.isBefore(at.minus(STALE))) {
            return null;
        }
        boolean older = week(habit.first(), at) >= Futures.YEAR;
        return new Weeks(older ? Futures.YEAR : count, futures, lately, factors, at);
    }

    /**
     * 0 for the last seven days, 1 for those before, and so on. In milliseconds: a quotient of durations is worked out in
     * decimals, which took a tenth of an answer's time.
     */
    static long week(Instant start, Instant at) {
        return Duration.between(start, at).toMillis() / WEEK.toMillis();
    }

    /**
     * Share of the bike's rides, by metres, that one chain has had since its first ride at or after an instant; NaN
     * where it had none.
     */
    double share(String chain, Instant since) {
        double own = 0;
        double all = 0;
        for (Habits.Ridden r : rides) {
            boolean mine = r.chains().contains(chain);
            if (!r.start().isBefore(since) && (mine || own > 0)) {
                all += r.metres();
                own += mine ? r.metres() : 0;
            }
        }
        return own / all;
    }

    /** How a treatment of this method is used up in the weeks to come: metres of dry clean road. */
    Futures.Sums treatment(Method method) {
        return treatment.computeIfAbsent(method, m -> sums(r -> used(r, m)));
    }

    /**
     * What the bike's rides of the last year count for a treatment, metres of dry clean road.
     *
     * @param ride the middle one of them
     * @param metre a metre of all of them
     * @param week all of them by the week
     */
    record Usual(double ride, double metre, double week) {}

    Usual usual(Method method) {
        return usual.computeIfAbsent(method, m -> {
            double[] each = rides.stream().mapToDouble(r -> used(r, m)).sorted().toArray();
            double all = Arrays.stream(each).sum();
            double metres = rides.stream().mapToDouble(Habits.Ridden::metres).sum();
            return new Usual(each[each.length / 2], all / metres, all / count);
        });
    }

    private double used(Habits.Ridden r, Method method) {
        return r.metres() * factors.treatmentFactor(r.wet(), r.damp(), r.grit(), method);
    }

    /** How a chain is worn in the weeks to come: metres of dry clean road at the reference load. */
    Futures.Sums wear() {
        if (wear == null) {
            wear = sums(Habits.Ridden::wearMetres);
        }
        return wear;
    }

    private Futures.Sums sums(ToDoubleFunction<Habits.Ridden> measure) {
        double[] weekly = new double[count];
        rides.forEach(r -> weekly[(int) week(r.start(), at)] += measure.applyAsDouble(r));
        return futures.apply(count).sums(weekly);
    }
}
