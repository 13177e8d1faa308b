package chainage.meter;

import chainage.ride.PowerTrace;
import chainage.ride.RideFold;
import chainage.ride.Sample;
import java.util.Arrays;
import java.util.Random;

/**
 * Rides that two meters record, second by second, with a known loss between them. Nothing in it comes from the models: the
 * loss is a constant number of watts and a share of the power that grows with a power of the share of life used; meters
 * have gains, zeros that wander, smoothing and clocks of their own; a flywheel takes and gives back energy; readings drop
 * out; one ride in ten is broken in one of several ways.
 */
final class PairWorld {
    /** Watts that are lost whatever the power, such as in bearings of jockey wheels. */
    private static final double CONSTANT_WATTS = 1.2;

    private static final long START = 1_790_000_000;

    private final Random random;
    private final double drift;
    private final double gainBefore;
    private final double gainBehind;

    PairWorld(long seed, double drift) {
        this.random = new Random(seed);
        this.drift = drift;
        this.gainBefore = 1 + 0.015 * random.nextGaussian();
        this.gainBehind = 1 + 0.015 * random.nextGaussian();
    }

    /** What can be wrong with a ride. */
    enum Broken {
        NOT,
        /** A zero taken anew in the middle. */
        ZERO,
        /** A meter whose gain is off that day, as with a flat battery. */
        GAIN,
        /** Another ride's file. */
        OTHER
    }

    /**
     * Two recordings.
     *
     * @param lagSeconds by how much the clock behind the chain is ahead
     * @param logRatio ln(behind ÷ before) as the meters' gains and zeros that day and the chain make it
     */
    record Recorded(PowerTrace before, PowerTrace behind, double lagSeconds, double logRatio, Broken broken) {}

    /** Share of the power lost besides the constant watts. */
    static double share(double fresh, double rise, double used) {
        return fresh + rise * Math.pow(used, 1.25);
    }

    Recorded ride(double minutes, double share, boolean mayBreak) {
        Broken broken = mayBreak && random.nextInt(10) == 0
                ? Broken.values()[1 + random.nextInt(Broken.values().length - 1)]
                : Broken.NOT;
        int seconds = (int) (60 * minutes);
        double[] crank = power(seconds);
        double[] other = broken == Broken.OTHER ? power(seconds) : crank;
        double[] wheel = new double[seconds];
        double in = 0;
        double out = 0;
        for (int t = 0; t < seconds; t++) {
            wheel[t] = other[t] == 0 ? 0 : Math.max(0, other[t] * (1 - share) - CONSTANT_WATTS);
            in += other[t];
            out += wheel[t];
        }
        double dayBefore = gainBefore * (1 + drift / Math.sqrt(2) * random.nextGaussian());
        double dayBehind = gainBehind * (1 + drift / Math.sqrt(2) * random.nextGaussian());
        if (broken == Broken.GAIN) {
            dayBehind *= random.nextBoolean() ? 1.06 : 0.94;
        }
        double lag = random.nextDouble() * 180 - 90;
        double step = broken == Broken.ZERO ? 14 : 0;
        double zeroBefore = 0.5 * random.nextGaussian();
        double zeroBehind = 0.5 * random.nextGaussian();
        PowerTrace before = recorded(crank, dayBefore, 3, 0, zeroBefore, 0);
        PowerTrace behind = recorded(flywheel(wheel), dayBehind, 9, lag, zeroBehind, step);
        long turning = Arrays.stream(other).filter(w -> w > 0).count();
        double ratio = (out * dayBehind + turning * zeroBehind) / (in * dayBefore + turning * zeroBefore);
        return new Recorded(before, behind, lag, Math.log(ratio), broken);
    }

    /** Efforts of a few minutes, with power that wanders and now and then nothing for a while. */
    private double[] power(int seconds) {
        double[] power = new double[seconds];
        double level = 180;
        double wander = 0;
        int until = 0;
        int rest = 0;
        for (int t = 0; t < seconds; t++) {
            if (t >= until) {
                level = 130 + random.nextInt(150);
                until = t + 120 + random.nextInt(600);
                rest = random.nextInt(4) == 0 ? t + 10 + random.nextInt(40) : 0;
            }
            wander += -wander / 20 + 4 * random.nextGaussian();
            power[t] = t < rest ? 0 : Math.max(20, level + wander);
        }
        return power;
    }

    /** What a brake sees of a wheel that speeds up and slows down with the power. */
    private static double[] flywheel(double[] power) {
        double[] seen = new double[power.length];
        double stored = power[0];
        for (int t = 0; t < power.length; t++) {
            stored += (power[t] - stored) / 12;
            seen[t] = stored;
        }
        return seen;
    }

    private PowerTrace recorded(double[] power, double gain, int smoothing, double lag, double zero, double step) {
        int seconds = power.length;
        RideFold fold = new RideFold();
        double[] window = new double[smoothing];
        Arrays.fill(window, power[0]);
        int out = 0;
        for (int t = 0; t < seconds; t++) {
            window[t % smoothing] = power[t];
            double watts = gain * Arrays.stream(window).average().orElseThrow()
                    + (power[t] > 0 ? zero + 2 * random.nextGaussian() : 0)
                    + (t > seconds / 2 ? step : 0);
            if (out == 0 && random.nextInt(1500) == 0) {
                out = 5 + random.nextInt(40);
            }
            out = Math.max(0, out - 1);
            fold.add(new Sample(
                    Math.round(1000 * (START + t + lag)),
                    Double.NaN,
                    Double.NaN,
                    Double.NaN,
                    8,
                    out > 0 ? Double.NaN : Math.round(Math.max(0, watts)),
                    power[t] > 0 ? 85 : 0,
                    Double.NaN,
                    Double.NaN,
                    true));
        }
        return fold.power();
    }
}
