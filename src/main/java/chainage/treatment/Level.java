package chainage.treatment;

import chainage.inference.MonotoneInverse;
import chainage.inference.Normal;

/**
 * What is known of the level of a product's typical life with this rider before a life of the rider's is seen: by the table,
 * or by what other riders' chains have shown.
 *
 * <p>The level is mean + loading f + e; f standard normal and the same for all products of one method, e the product's own.
 *
 * @param mean 0 by the table
 * @param loading how far it goes along with the other products of its method
 * @param own what it does not share with them
 * @param sd of both together
 * @param table share of the mean that still comes from the table, 0 to 1
 */
public record Level(double mean, double loading, Own own, double sd, double table) {
    /** By the table alone: its 10 and 90 % quantiles are the standard normal's, as {@link LifeShape} asks for. */
    static Level table(Own own) {
        double loading = 1 - MonotoneInverse.reaches(l -> own.beside(1 - l).below(Normal.Z90), 0.9, 0, 1);
        return new Level(0, loading, own, Math.hypot(loading, own.sd()), 1);
    }

    /** Density of a level, all doubt included. */
    double density(double level) {
        return own.beside(loading).density(level - mean);
    }
}
