package chainage.standing;

import chainage.inference.Normal;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * When something is due.
 *
 * @param low early: 10 % of the futures are due by then
 * @param likely half of them
 * @param high late: 90 % of them
 * @param weeks how many of the bike's past weeks it rests on
 * @param share of the bike's rides that the chain gets
 */
public record Dates(Instant low, Instant likely, Instant high, int weeks, double share) {
    /** Further ahead than this no date is worth giving; our choice. */
    public static final int HORIZON_YEARS = 30;

    /** A bike without a ride for so long has no date: the past then says nothing of the weeks to come; our guess. */
    public static final int STALE_WEEKS = 12;

    private static final double HORIZON_WEEKS = HORIZON_YEARS * 52.1775;

    /** Scores that share the probability evenly among the futures; worked out once, being dear. */
    static final double[] SCORES = IntStream.range(0, Futures.COUNT)
            .mapToDouble(i -> Normal.quantile((i + 0.5) / Futures.COUNT))
            .toArray();

    private static final double MINUTES_PER_WEEK = 7 * 24 * 60;

    /**
     * When what is left is used up. Each future has its own weeks and its own share of doubt about what is left, so that
     * the interval holds both. What is past due is due now.
     *
     * @param sums what the weeks to come use up
     * @param share of the bike's rides that the chain gets
     * @param left what is left in the same unit, by normal score: of z the value that lies above as much of the
     *     probability as z does in the standard normal distribution; rising
     * @return null beyond the horizon
     */
    static @Nullable Dates of(Instant now, Futures.Sums sums, double share, DoubleUnaryOperator left) {
        double[] due = new double[Futures.COUNT];
        for (int i = 0; i < due.length; i++) {
            due[i] = sums.weeksUntil(i, left.applyAsDouble(SCORES[i]) / share);
        }
        Arrays.sort(due);
        return quantile(due, 0.5) > HORIZON_WEEKS
                ? null
                : new Dates(
                        after(now, quantile(due, 0.1)),
                        after(now, quantile(due, 0.5)),
                        after(now, quantile(due, 0.9)),
                        sums.weeks(),
                        share);
    }

    private static double quantile(double[] sorted, double p) {
        double at = p * sorted.length - 0.5;
        int i = (int) at;
        double below = Math.min(sorted[i], 3 * HORIZON_WEEKS);
        double above = Math.min(sorted[i + 1], 3 * HORIZON_WEEKS);
        return below + (at - i) * (above - below);
    }

    private static Instant after(Instant now, double weeks) {
        return now.plus(Duration.ofMinutes(Math.round(weeks * MINUTES_PER_WEEK)));
    }
}
