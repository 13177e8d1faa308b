package chainage.ride;

/** Time-weighted median speed in one pass and constant space, to 0.1 m/s. */
final class SpeedHistogram {
    private static final double BIN = 0.1;
    private static final int BINS = 430;

    private final double[] seconds = new double[BINS];
    private double total;

    void add(double metresPerSecond, double time) {
        seconds[Math.min(BINS - 1, (int) (metresPerSecond / BIN))] += time;
        total += time;
    }

    /** Centre of the bin that holds the median, metres per second; NaN when nothing came. */
    double median() {
        double half = 0;
        for (int i = 0; i < BINS; i++) {
            half += seconds[i];
            if (total > 0 && half >= total / 2) {
                return (i + 0.5) * BIN;
            }
        }
        return Double.NaN;
    }
}
