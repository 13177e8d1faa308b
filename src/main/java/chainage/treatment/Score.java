package chainage.treatment;

/**
 * What is known of one of the {@link Unknowns} with this rider before a life of the rider's is seen, in units of what the
 * table leaves open: 0 and 1 by the table.
 */
public record Score(double mean, double sd) {
    static final Score TABLE = new Score(0, 1);

    double at(double standard) {
        return mean + sd * standard;
    }
}
