package chainage.inference;

import java.util.function.DoubleUnaryOperator;

/**
 * A dear function made cheap: sampled on an even grid and interpolated by cubics. Exact for parabolas, so that the log
 * of a bell is met at once. Beyond its ends it goes on as its last cubic.
 */
final class Smooth implements DoubleUnaryOperator {
    private final double from;
    private final double step;
    private final double[] value;

    Smooth(DoubleUnaryOperator f, double low, double high, int points) {
        from = low;
        step = (high - low) / (points - 1);
        value = new double[points];
        for (int i = 0; i < points; i++) {
            value[i] = f.applyAsDouble(low + i * step);
        }
    }

    @Override
    public double applyAsDouble(double x) {
        int i = (int) Math.max(1, Math.min(value.length - 3, Math.floor((x - from) / step)));
        double t = (x - from) / step - i;
        // Through the four points around the cell.
        double a = value[i - 1];
        double b = value[i];
        double c = value[i + 1];
        double d = value[i + 2];
        return -a * t * (t - 1) * (t - 2) / 6
                + b * (t + 1) * (t - 1) * (t - 2) / 2
                - c * (t + 1) * t * (t - 2) / 2
                + d * (t + 1) * t * (t - 1) / 6;
    }
}
