package chainage.standing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.host.Resource;
import chainage.inference.Normal;
import chainage.quantity.Estimate;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.Objects;
import java.util.Random;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import java.util.function.IntUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class DatesTest {
    @Test
    void theExplanationNamesTheSameLimits() {
        String text = Resource.text("/chainage/explain/dates.txt");
        assertTrue(text.contains("the last " + Dates.STALE_WEEKS + " weeks"), text);
        assertTrue(text.contains("beyond " + Dates.HORIZON_YEARS + " years"), text);
    }

    private static final Instant NOW = Instant.parse("2026-03-29T00:00:00Z");
    private static final long SEED = 0x992c5e9fc8L;

    private static DoubleUnaryOperator surely(double metres) {
        return z -> metres;
    }

    private static Dates dates(double[] weekly, DoubleUnaryOperator left) {
        return Objects.requireNonNull(Dates.of(NOW, new Futures(weekly.length, SEED).sums(weekly), 1, left));
    }

    private static double days(Instant t) {
        return Duration.between(NOW, t).toMinutes() / 1440.0;
    }

    private static double width(Dates d) {
        return days(d.high()) - days(d.low());
    }

    private static double[] weekly(int weeks, IntUnaryOperator metres) {
        double[] weekly = new double[weeks];
        Arrays.setAll(weekly, metres::applyAsInt);
        return weekly;
    }

    /** The platform's generator follows the same paper. */
    @ParameterizedTest
    @ValueSource(longs = {0, 1, -1, SEED, Long.MAX_VALUE})
    void theStreamIsTheOneOfThePaper(long seed) {
        SplittableRandom other = new SplittableRandom(seed);
        SplitMix random = new SplitMix(seed);
        for (int i = 0; i < 1000; i++) {
            assertEquals(other.nextLong(), random.next());
        }
    }

    @ParameterizedTest(name = "{0} m left at 60 km a week over {1} past weeks: {2} days")
    @CsvSource({
        "30000, 10, 3.5",
        "60000, 1, 7",
        "150000, 52, 17.5",
        "9360000, 52, 1092",
        "12480000, 30, 1456",
        "0, 20, 0",
        "-5000, 20, 0"
    })
    void equalWeeksLeaveTheHabitInDoubt(double left, int weeks, double days) {
        Dates d = dates(weekly(weeks, i -> 60_000), surely(left));
        // Only the habit is in doubt then, by sqrt(0.2^2 + 0.7^2 / weeks) in the log.
        double doubt = Math.exp(Normal.Z90 * Math.sqrt(0.04 + 0.49 / weeks));
        assertEquals(days / doubt, days(d.low()), 0.02 * days + 1.0 / 1440);
        assertEquals(days, days(d.likely()), 1e-4 * days + 1.0 / 1440);
        assertEquals(days * doubt, days(d.high()), 0.02 * days * doubt + 1.0 / 1440);
        assertEquals(weeks, d.weeks());
    }

    @Test
    void unequalWeeksGiveAWiderInterval() {
        double even = width(dates(weekly(52, i -> 60_000), surely(400_000)));
        double uneven = width(dates(weekly(52, i -> i % 2 == 0 ? 40_000 : 80_000), surely(400_000)));
        double wild = width(dates(weekly(52, i -> i % 4 == 0 ? 240_000 : 0), surely(400_000)));
        assertTrue(even < uneven && uneven < wild, even + ", " + uneven + ", " + wild);
    }

    @Test
    void fewerPastWeeksGiveAWiderInterval() {
        double year = width(dates(weekly(48, i -> i % 2 == 0 ? 40_000 : 80_000), surely(900_000)));
        double month = width(dates(weekly(4, i -> i % 2 == 0 ? 40_000 : 80_000), surely(900_000)));
        assertTrue(month > 1.3 * year, month + ", " + year);
    }

    @Test
    void doubtAboutWhatIsLeftGivesAWiderInterval() {
        double[] weekly = weekly(52, i -> 60_000);
        Dates d = dates(weekly, Spread.quantiles(new Estimate(200_000, 300_000, 500_000)));
        Dates known = dates(weekly, surely(300_000));
        assertTrue(width(d) > 1.3 * width(known), d + " against " + known);
        assertEquals(300.0 / 60 * 7, days(d.likely()), 2);
    }

    @Test
    void theSameSeedGivesTheSameDates() {
        double[] weekly = weekly(52, i -> 1000 * ((i * 37) % 90));
        DoubleUnaryOperator left = Spread.quantiles(new Estimate(200_000, 300_000, 500_000));
        assertEquals(dates(weekly, left), dates(weekly, left));
        // Another seed is another drawing of the same futures: near, not equal.
        Dates other = Objects.requireNonNull(Dates.of(NOW, new Futures(52, SEED + 1).sums(weekly), 1, left));
        assertTrue(!other.equals(dates(weekly, left)));
        assertEquals(days(other.likely()), days(dates(weekly, left).likely()), 4);
    }

    @Test
    void moreLeftIsNeverDueSooner() {
        double[] weekly = weekly(40, i -> 1000 * ((i * 37) % 90));
        for (double left = 10_000; left < 8_000_000; left *= 1.3) {
            Dates less = dates(weekly, surely(left));
            Dates more = dates(weekly, surely(left * 1.3));
            assertTrue(
                    !more.low().isBefore(less.low())
                            && !more.likely().isBefore(less.likely())
                            && !more.high().isBefore(less.high()),
                    left + " m");
        }
    }

    /** Week i of the past began i + 1 weeks ago; 26 weeks of none, then 26 weeks of 100 km each, lie behind. */
    @Test
    void theSeasonIsKept() {
        double[] restedLately = weekly(52, i -> i < 26 ? 0 : 100_000);
        double[] rodeLately = weekly(52, i -> i < 26 ? 100_000 : 0);
        // A year ago the coming weeks were ridden in one case, and rested in the other.
        Dates soon = dates(restedLately, surely(500_000));
        Dates late = dates(rodeLately, surely(500_000));
        // Five weeks of riding, 8 of 17 like it, and a habit that may have changed by a fifth.
        assertTrue(days(soon.high()) < 12 * 7, soon.toString());
        // The resting season, less what its neighbours reach into it on both sides.
        assertTrue(days(late.low()) > 18 * 7, late.toString());
        // Half a year of history knows no other season: all of it is drawn from.
        Dates young = dates(weekly(26, i -> i < 13 ? 0 : 100_000), surely(500_000));
        assertTrue(days(young.likely()) > 6 * 7 && days(young.likely()) < 16 * 7, young.toString());
    }

    @Test
    void beyondThirtyYearsThereIsNoDate() {
        assertNull(Dates.of(NOW, new Futures(52, SEED).sums(weekly(52, i -> 100)), 1, surely(1_000_000)));
        assertNotNull(Dates.of(NOW, new Futures(52, SEED).sums(weekly(52, i -> 1000)), 1, surely(1_000_000)));
    }

    @Test
    void whatWasHardlyEverRiddenGivesAnEndInSightAndNotInfinity() {
        Dates d = dates(weekly(52, i -> i == 51 ? 60_000 : 0), surely(30_000));
        assertTrue(d.low().isBefore(d.high()));
    }

    /**
     * Riders drawn at random, each with a year behind and a future of the same kind: does the interval hold what comes?
     * Mean, spread, share of weeks without a ride and season differ from rider to rider, as does how sure what is left
     * is; the true amount left is drawn from what is told of it.
     */
    @ParameterizedTest(name = "{0}: {1} km left, known to {2}, {3} weeks behind, habit changed {4}")
    @CsvSource({
        "treatment, 300, 0.45, 52, false",
        "treatment known exactly, 250, 0, 52, false",
        "chain, 3000, 0.5, 52, false",
        "treatment, 300, 0.45, 6, false",
        "chain, 3000, 0.5, 6, false",
        "treatment, 300, 0.45, 52, true",
        "chain, 3000, 0.5, 52, true",
        "treatment, 300, 0.45, 9, true"
    })
    void fourInFiveOfAllIntervalsHoldTheTruth(String what, double km, double doubt, int weeks, boolean changed) {
        long seed = 20260329;
        Random random = new Random(seed);
        int riders = 500;
        int held = 0;
        int below = 0;
        for (int rider = 0; rider < riders; rider++) {
            Habit habit = new Habit(random);
            // Another amount a week from somewhere in the past on, some half as much, some twice.
            double other = changed ? Math.exp(0.5 * random.nextGaussian()) : 1;
            int since = changed ? 2 + random.nextInt(weeks - 2) : 0;
            double[] past = new double[weeks];
            for (int i = 0; i < weeks; i++) {
                past[i] = habit.week(-(i + 1)) * (changed && i >= since ? 1 / other : 1);
            }
            if (Arrays.stream(past).sum() == 0) {
                past[0] = 1;
            }
            double likely = km * 1000 * Math.exp(0.5 * random.nextGaussian());
            double spread = doubt * random.nextDouble();
            double left = likely * Math.exp(spread * random.nextGaussian());
            Dates d = Objects.requireNonNull(Dates.of(
                    NOW, new Futures(weeks, random.nextLong()).sums(past), 1, z -> likely * Math.exp(spread * z)));
            double days = habit.daysUntil(left);
            held += days >= days(d.low()) && days <= days(d.high()) ? 1 : 0;
            below += days <= days(d.likely()) ? 1 : 0;
        }
        double share = 100.0 * held / riders;
        System.out.printf(
                "dates, %s, %d weeks, changed %s: %d riders, 80 %% interval holds %.1f %%, median %.1f %% (seed %d)%n",
                what, weeks, changed, riders, share, 100.0 * below / riders, seed);
        assertTrue(share >= (changed ? 60 : 74) && share <= 90, share + " % held, seed " + seed);
    }

    /** How one rider fills the weeks. */
    private static final class Habit {
        private final Random random;
        private final double mean;
        private final double spread;
        private final double idle;
        private final double season;
        private final double height;

        Habit(Random random) {
            this.random = random;
            mean = 30_000 + 170_000 * random.nextDouble();
            spread = 0.2 + 0.6 * random.nextDouble();
            idle = 0.3 * random.nextDouble();
            season = 52 * random.nextDouble();
            height = 0.6 * random.nextDouble();
        }

        double week(int k) {
            if (random.nextDouble() < idle) {
                return 0;
            }
            double level = 1 + height * Math.sin(2 * Math.PI * (k - season) / 52);
            return mean * level * Math.exp(spread * random.nextGaussian() - spread * spread / 2);
        }

        double daysUntil(double metres) {
            double sum = 0;
            for (int k = 0; ; k++) {
                double next = week(k);
                if (sum + next >= metres) {
                    return 7 * (k + (metres - sum) / next);
                }
                sum += next;
            }
        }
    }
}
