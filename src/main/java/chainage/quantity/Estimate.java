package chainage.quantity;

/**
 * A figure with its interval, all three in one unit.
 *
 * @param low 10 % quantile
 * @param likely median
 * @param high 90 % quantile
 */
public record Estimate(double low, double likely, double high) {
    public Estimate {
        if (!(low <= likely && likely <= high)) {
            throw new IllegalArgumentException("estimate out of order: " + low + " / " + likely + " / " + high);
        }
    }
}
