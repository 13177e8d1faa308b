package chainage.weather;

/**
 * The air over a road, as far as a record knows it.
 *
 * @param celsius NaN when not known
 * @param humidityPercent relative humidity, 0 to 100; NaN when not known
 * @param metresPerSecond wind at ten metres, 0 or more; NaN when not known
 * @param cloud share of the sky that clouds cover, 0 to 1; NaN when not known
 */
public record Air(double celsius, double humidityPercent, double metresPerSecond, double cloud) {
    public static final Air UNKNOWN = new Air(Double.NaN, Double.NaN, Double.NaN, Double.NaN);

    public Air {
        if (humidityPercent < 0 || humidityPercent > 100) {
            throw new IllegalArgumentException("humidity " + humidityPercent + " %");
        }
        if (metresPerSecond < 0 || Double.isInfinite(metresPerSecond)) {
            throw new IllegalArgumentException("wind " + metresPerSecond + " m/s");
        }
        if (cloud < 0 || cloud > 1) {
            throw new IllegalArgumentException("cloud " + cloud);
        }
    }
}
