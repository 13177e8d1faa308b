package chainage.treatment;

/**
 * What is known of the level of a product's typical life with this rider before a life of the rider's is seen: by the table,
 * or by what other riders' chains have shown.
 *
 * <p>The level is mean + loading f + e; f standard normal and the same for all products of one method, e the product's own.
 *
 * @param mean 0 by the table
 * @param loading how far it goes along with the other products of its method
 * @param own what it does not share with them
 * @param sd of both together; 1 by the table
 * @param table share of the mean that still comes from the table, 0 to 1
 */
record Level(double mean, double loading, Own own, double sd, double table) {
    /** By the table alone. */
    static Level table(Own own) {
        return new Level(0, Math.sqrt(1 - own.sd() * own.sd()), own, 1, 1);
    }

    /** Density of a level, all doubt included. */
    double density(double level) {
        return own.beside(loading).density(level - mean);
    }
}
