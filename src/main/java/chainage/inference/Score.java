package chainage.inference;

/**
 * What is known of a value before anything of somebody's own is seen, in units of what the table leaves open: 0 and 1 by the
 * table.
 */
public record Score(double mean, double sd) {
    /** By the table alone. */
    public static final Score TABLE = new Score(0, 1);

    /** The value at so many of its spreads from its mean. */
    public double at(double standard) {
        return mean + sd * standard;
    }
}
