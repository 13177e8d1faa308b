package chainage.standing;

import java.util.Arrays;
import java.util.stream.IntStream;

/**
 * Possible futures of a bike, each a row of weeks drawn from those it had: whole weeks, so that what belongs together
 * stays together. For a week to come those of its own season are drawn from where there are enough of them, else all.
 *
 * <p>So few weeks say only so much about the rider's habit. Each future therefore gives the past weeks weights of its
 * own and draws by them: exponential ones (Rubin, "The Bayesian bootstrap", Annals of Statistics 9, 1981), to a power,
 * since that bootstrap takes few weeks for surer than they are. And each future rides all the time somewhat more or less
 * than before: habits change, and few weeks do not tell one.
 */
final class Futures {
    /** Our choice: a tenth of them is enough to tell a 10 % quantile by. */
    static final int COUNT = 300;
    /** Weeks drawn for each; after that a future goes on at its own mean. Our choice. */
    static final int DRAWN = 156;
    /** A year of whole weeks, so that every season counts once. */
    static final int YEAR = 52;
    /** So many weeks before and after are of the same season; 17 of 52 in all. Our choice. */
    private static final int SEASON = 8;
    /** Power of the weights; our choice, with which four in five intervals of simulated riders hold the truth. */
    private static final double POWER = 1.2;
    /** Spread in the log of how much more or less than before each future rides all the time; our choice, likewise. */
    private static final double HABIT = 0.2;
    /** The same where one week alone is known; it falls with the root of their number. Our choice, likewise. */
    private static final double FEW = 0.7;
    /** Fewer weeks of a season than this say too little of it; our choice. */
    private static final int ENOUGH = 8;

    private final int weeks;
    /** For each future and week to come the week of the past that it repeats. */
    private final int[][] drawn = new int[COUNT][DRAWN];
    /** How many times as much as before each future rides. */
    private final double[] habit = new double[COUNT];

    /**
     * Draws the futures.
     *
     * @param weeks how many past weeks there are to draw from, 1 to 52, the last one first
     * @param seed what the drawing follows from
     */
    Futures(int weeks, long seed) {
        this.weeks = weeks;
        SplitMix random = new SplitMix(seed);
        int[][] alike = alike(weeks);
        double[] weights = new double[weeks];
        double[][] sums = new double[YEAR][];
        double spread = Math.hypot(HABIT, FEW / Math.sqrt(weeks));
        double[] scores = Dates.SCORES.clone();
        for (int p = 0; p < COUNT; p++) {
            int[] future = drawn[p];
            // Each score once, in an order that has nothing to do with what is left.
            int which = p + (int) (random.uniform() * (COUNT - p));
            habit[p] = Math.exp(spread * scores[which]);
            scores[which] = scores[p];
            for (int i = 0; i < weeks; i++) {
                weights[i] = Math.pow(-Math.log1p(-random.uniform()), POWER);
            }
            for (int k = 0; k < YEAR; k++) {
                sums[k] = k > 0 && alike[k] == alike[k - 1] ? sums[k - 1] : cumulated(weights, alike[k]);
            }
            for (int k = 0; k < DRAWN; k++) {
                double[] sum = sums[k % YEAR];
                double at = random.uniform() * sum[sum.length - 1];
                int j = 0;
                while (sum[j] < at) {
                    j++;
                }
                future[k] = alike[k % YEAR][j];
            }
        }
    }

    /** How many past weeks were drawn from. */
    int weeks() {
        return weeks;
    }

    /** For each week of the year to come, the past weeks that it may repeat. */
    private static int[][] alike(int weeks) {
        int[] all = IntStream.range(0, weeks).toArray();
        int[][] alike = new int[YEAR][];
        for (int k = 0; k < YEAR; k++) {
            int to = k;
            int[] season = Arrays.stream(all)
                    .filter(i -> {
                        int apart = Math.floorMod(to + i + 1, YEAR);
                        return Math.min(apart, YEAR - apart) <= SEASON;
                    })
                    .toArray();
            alike[k] = season.length >= ENOUGH ? season : all;
        }
        return alike;
    }

    private static double[] cumulated(double[] weights, int[] which) {
        double[] sums = new double[which.length];
        double sum = 0;
        for (int i = 0; i < which.length; i++) {
            sum += weights[which[i]];
            sums[i] = sum;
        }
        return sums;
    }

    /**
     * What each future has gathered by the end of each week.
     *
     * @param weekly what each past week gathered, the last one first; 0 or more, not all 0
     */
    Sums sums(double[] weekly) {
        double[][] sums = new double[COUNT][DRAWN];
        for (int p = 0; p < COUNT; p++) {
            double sum = 0;
            for (int k = 0; k < DRAWN; k++) {
                sum += habit[p] * weekly[drawn[p][k]];
                sums[p][k] = sum;
            }
        }
        return new Sums(sums, weeks);
    }

    /** Running sums of one measure over the weeks to come. */
    static final class Sums {
        private final double[][] sums;
        private final int weeks;

        private Sums(double[][] sums, int weeks) {
            this.sums = sums;
            this.weeks = weeks;
        }

        /** How many past weeks they rest on. */
        int weeks() {
            return weeks;
        }

        /** Weeks until a future has gathered so much, with the part of the last one; infinite when it never does. */
        double weeksUntil(int future, double amount) {
            if (amount <= 0) {
                return 0;
            }
            double[] sum = sums[future];
            double last = sum[DRAWN - 1];
            if (last < amount) {
                return amount / last * DRAWN;
            }
            int low = 0;
            int high = DRAWN - 1;
            while (low < high) {
                int middle = (low + high) >>> 1;
                if (sum[middle] < amount) {
                    low = middle + 1;
                } else {
                    high = middle;
                }
            }
            double before = low == 0 ? 0 : sum[low - 1];
            return low + (amount - before) / (sum[low] - before);
        }
    }
}
