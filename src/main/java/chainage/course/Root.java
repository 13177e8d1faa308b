package chainage.course;

/**
 * The zero of a rising curve right of 0: Newton's steps, and halving where they would leave the bracket. Ends when the
 * bracket or the step is below the last bits of the speed.
 */
final class Root {
    /** A curve that rises over all speeds above 0. */
    interface Curve {
        double at(double speed);

        double slope(double speed);
    }

    private static final int MOST_STEPS = 200;
    private static final double CLOSE = 4e-16;

    private Root() {}

    static double of(Curve curve, double guess) {
        double low = 0;
        double high = Math.max(guess, 1);
        while (curve.at(high) < 0) {
            low = high;
            high *= 2;
        }
        double v = guess > low && guess < high ? guess : (low + high) / 2;
        for (int i = 0; i < MOST_STEPS; i++) {
            double y = curve.at(v);
            if (y == 0) {
                return v;
            }
            if (y < 0) {
                low = v;
            } else {
                high = v;
            }
            double newton = v - y / curve.slope(v);
            double next = newton > low && newton < high ? newton : (low + high) / 2;
            if (Math.abs(next - v) <= CLOSE * next) {
                return next;
            }
            v = next;
        }
        return v;
    }
}
