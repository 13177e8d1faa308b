package chainage.cost;

/**
 * What has a price, or should have one.
 *
 * @param name of the product or chain, for sprockets that of the bike; empty for the hour
 */
public record PricedThing(Kind kind, String name) {
    /** What of it. */
    public enum Kind {
        PRODUCT,
        CHAIN,
        CASSETTE,
        RINGS,
        /** The rider's own. */
        HOUR
    }
}
