package chainage.ride;

/**
 * Climbing from altitudes: rises count once they exceed 3 m, so that noise of a barometer or receiver does not add up
 * (3 m is common practice).
 */
final class ClimbFold {
    private static final double HYSTERESIS_METRES = 3;

    private double level = Double.NaN;
    private double metres;

    void add(double altitude) {
        if (Double.isNaN(altitude)) {
            return;
        }
        if (Double.isNaN(level) || altitude < level - HYSTERESIS_METRES) {
            level = altitude;
        } else if (altitude > level + HYSTERESIS_METRES) {
            metres += altitude - level;
            level = altitude;
        }
    }

    /** Metres climbed; NaN when no altitude came. */
    double metres() {
        return Double.isNaN(level) ? Double.NaN : metres;
    }
}
