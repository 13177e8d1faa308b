package chainage.meter;

import chainage.ride.PowerTrace;
import chainage.ride.PowerTrace.Minute;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/**
 * Lays two traces over each other. Their clocks may differ by minutes: the lag is where the two rise and fall together
 * best. Between minutes energy is taken to grow in a straight line, so that lags finer than a minute can be told; over a
 * stretch of minutes an error of the lag only touches its two ends.
 *
 * <p>Compared is steady pedalling alone, in stretches of several minutes without their first and last: where the cranks
 * stop, a flywheel gives back what it took before, and meters smooth and lag each in their own way. Clocks of watches and
 * head units drift by some parts in a hundred thousand, a tenth of a second an hour, which is left out.
 */
final class Laying {
    // All our guesses.
    private static final int FARTHEST_SECONDS = 600;
    private static final int COARSE = 10;
    static final int LEAST_MINUTES = 20;
    static final double LEAST_CORRELATION = 0.8;
    private static final int SHORTEST_STRETCH = 5;
    private static final int RECORDED_SECONDS = 57;
    private static final double LEAST_WATTS = 50;
    private static final double OUTLYING = 4;
    private static final double LEAST_OUTLYING = 0.03;
    private static final int LEAST_SIDE = 8;
    static final double JUMP = 0.02;
    private static final double SURE = 5;
    static final double FARTHEST_RATIO = 0.15;

    /** Median of the absolute deviations to standard deviation, for a normal distribution. */
    private static final double MAD = 1.4826;

    private final PowerTrace before;
    private final PowerTrace behind;
    private final double[] smoothBefore;
    private final double[] smoothBehind;

    private Laying(PowerTrace before, PowerTrace behind) {
        this.before = before;
        this.behind = behind;
        this.smoothBefore = smooth(before);
        this.smoothBehind = smooth(behind);
    }

    static Laid of(PowerTrace before, PowerTrace behind) {
        if (before.isEmpty() || behind.isEmpty()) {
            return new Laid.Apart(Laid.Why.NO_TRACE, 0);
        }
        return new Laying(before, behind).lay();
    }

    private Laid lay() {
        double best = Double.NEGATIVE_INFINITY;
        int lag = 0;
        for (int at : IntStream.rangeClosed(-FARTHEST_SECONDS / COARSE, FARTHEST_SECONDS / COARSE)
                .map(i -> i * COARSE)
                .toArray()) {
            double c = correlation(at);
            if (c > best || (c == best && Math.abs(at) < Math.abs(lag))) {
                best = c;
                lag = at;
            }
        }
        if (best == Double.NEGATIVE_INFINITY) {
            int common = common();
            return common < LEAST_MINUTES
                    ? new Laid.Apart(Laid.Why.NOTHING_IN_COMMON, common)
                    : new Laid.Apart(Laid.Why.TOO_SHORT, 0);
        }
        int coarse = lag;
        for (int at = coarse - COARSE; at <= coarse + COARSE; at++) {
            double c = correlation(at);
            if (c > best) {
                best = c;
                lag = at;
            }
        }
        if (best < LEAST_CORRELATION) {
            return new Laid.Apart(Laid.Why.UNLIKE, best);
        }
        return compare(lag, best);
    }

    private Laid compare(int lag, double correlation) {
        boolean[] usable = usable(lag);
        List<Integer> minutes = stretches(usable);
        if (minutes.size() >= LEAST_MINUTES) {
            double middle = median(ratios(minutes, lag));
            double spread = spread(ratios(minutes, lag), middle);
            for (int i : minutes) {
                // Drop-outs and the like; they part the stretch they are in.
                usable[i] = Math.abs(ratio(i, lag) - middle) <= Math.max(LEAST_OUTLYING, OUTLYING * spread);
            }
            minutes = stretches(usable);
        }
        if (minutes.size() < LEAST_MINUTES) {
            return new Laid.Apart(Laid.Why.TOO_SHORT, minutes.size());
        }
        double jump = jump(minutes, lag);
        if (jump > JUMP) {
            return new Laid.Apart(Laid.Why.JUMPED, jump);
        }
        double in = energy(minutes, lag, true);
        double out = energy(minutes, lag, false);
        double logRatio = Math.log(out / in);
        if (Math.abs(logRatio) > FARTHEST_RATIO) {
            return new Laid.Apart(Laid.Why.FAR_APART, out / in - 1);
        }
        double[] ratios = ratios(minutes, lag);
        double error = spread(ratios, median(ratios)) / Math.sqrt(minutes.size());
        return new Laid.Over(
                lag, correlation, minutes.size(), in / minutes.size(), out / minutes.size(), logRatio, error);
    }

    /** How far the ratio moved where it moved most, both sides several minutes long; 0 where that may be chance. */
    private double jump(List<Integer> minutes, int lag) {
        double most = 0;
        for (int cut = LEAST_SIDE; cut <= minutes.size() - LEAST_SIDE; cut++) {
            List<Integer> first = minutes.subList(0, cut);
            List<Integer> second = minutes.subList(cut, minutes.size());
            double step = Math.abs(side(second, lag) - side(first, lag));
            double error = Math.hypot(error(first, lag), error(second, lag));
            if (step > SURE * error) {
                most = Math.max(most, step);
            }
        }
        return most;
    }

    private double side(List<Integer> minutes, int lag) {
        return Math.log(energy(minutes, lag, false) / energy(minutes, lag, true));
    }

    private double error(List<Integer> minutes, int lag) {
        double[] ratios = ratios(minutes, lag);
        return spread(ratios, median(ratios)) / Math.sqrt(minutes.size());
    }

    /** Minutes in which both were recorded and the cranks turned with some force. */
    private boolean[] usable(int lag) {
        boolean[] usable = new boolean[before.minutes().size()];
        for (int i = 0; i < usable.length; i++) {
            Minute m = before.minutes().get(i);
            double at = place(i, lag);
            int j = (int) Math.floor(at);
            usable[i] = m.steady() && m.watts() >= LEAST_WATTS && steadyBehind(j) && (at == j || steadyBehind(j + 1));
        }
        return usable;
    }

    private boolean steadyBehind(int j) {
        return j >= 0
                && j < behind.minutes().size()
                && behind.minutes().get(j).steady()
                && behind.minutes().get(j).watts() >= LEAST_WATTS;
    }

    /** Minutes of whole stretches, without the first and the last of each. */
    private static List<Integer> stretches(boolean[] usable) {
        List<Integer> minutes = new ArrayList<>();
        int from = 0;
        for (int i = 0; i <= usable.length; i++) {
            if (i == usable.length || !usable[i]) {
                if (i - from >= SHORTEST_STRETCH) {
                    IntStream.range(from + 1, i - 1).forEach(minutes::add);
                }
                from = i + 1;
            }
        }
        return minutes;
    }

    private double[] ratios(List<Integer> minutes, int lag) {
        return minutes.stream().mapToDouble(i -> ratio(i, lag)).toArray();
    }

    private double ratio(int i, int lag) {
        return Math.log(behindWatts(i, lag) / before.minutes().get(i).watts());
    }

    private double energy(List<Integer> minutes, int lag, boolean in) {
        return minutes.stream()
                .mapToDouble(i -> in ? before.minutes().get(i).watts() : behindWatts(i, lag))
                .sum();
    }

    private double behindWatts(int i, int lag) {
        double at = place(i, lag);
        int j = (int) Math.floor(at);
        double part = at - j;
        double here = behind.minutes().get(j).watts();
        return part == 0 ? here : here + part * (behind.minutes().get(j + 1).watts() - here);
    }

    /** Where a minute before the chain begins in the trace behind it, in minutes. */
    private double place(int i, int lag) {
        return i + (before.first() - behind.first()) + lag / 60.0;
    }

    private double correlation(int lag) {
        int n = 0;
        double sx = 0;
        double sy = 0;
        double sxx = 0;
        double syy = 0;
        double sxy = 0;
        for (int i = 0; i < smoothBefore.length; i++) {
            double x = smoothBefore[i];
            double at = place(i, lag);
            int j = (int) Math.floor(at);
            if (Double.isNaN(x) || j < 0 || j + 1 >= smoothBehind.length) {
                continue;
            }
            double y = smoothBehind[j] + (at - j) * (smoothBehind[j + 1] - smoothBehind[j]);
            if (Double.isNaN(y)) {
                continue;
            }
            n++;
            sx += x;
            sy += y;
            sxx += x * x;
            syy += y * y;
            sxy += x * y;
        }
        double vx = sxx - sx * sx / Math.max(1, n);
        double vy = syy - sy * sy / Math.max(1, n);
        return n < LEAST_MINUTES || !(vx > 0) || !(vy > 0)
                ? Double.NEGATIVE_INFINITY
                : (sxy - sx * sy / n) / Math.sqrt(vx * vy);
    }

    /** Minutes that both clocks call the same. */
    private int common() {
        long from = Math.max(before.first(), behind.first());
        long to = Math.min(
                before.first() + before.minutes().size(),
                behind.first() + behind.minutes().size());
        return (int) Math.max(0, to - from);
    }

    /** Each minute with half of its neighbours, so that a lag between two minutes looks no smoother; NaN at gaps. */
    private static double[] smooth(PowerTrace trace) {
        double[] smooth = new double[trace.minutes().size()];
        Arrays.fill(smooth, Double.NaN);
        for (int i = 1; i + 1 < smooth.length; i++) {
            Minute a = trace.minutes().get(i - 1);
            Minute b = trace.minutes().get(i);
            Minute c = trace.minutes().get(i + 1);
            if (Math.min(Math.min(a.seconds(), b.seconds()), c.seconds()) >= RECORDED_SECONDS) {
                smooth[i] = (a.watts() + 2 * b.watts() + c.watts()) / 4.0;
            }
        }
        return smooth;
    }

    private static double median(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        int n = sorted.length;
        return (sorted[(n - 1) / 2] + sorted[n / 2]) / 2;
    }

    private static double spread(double[] values, double middle) {
        return MAD * median(Arrays.stream(values).map(v -> Math.abs(v - middle)).toArray());
    }
}
