package chainage.wear;

import chainage.inference.Score;
import chainage.ledger.Method;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * From where this rider's chains start: the table, moved by what other riders' readings have shown.
 *
 * <p>The log of the pace of a chain under product p is r + loading_p q + d_p: r the rider's own, q ~ Normal(0, 1) the same
 * for all products of p's method, d_p ~ Normal(mean_p, own_p²).
 *
 * @param rider spread of r
 * @param wet log of what wet adds to wear, against what the table leaves open of it
 * @param grit the same of grit
 * @param methods of which others have shown something
 */
public record Paces(double rider, Score wet, Score grit, Map<Method, Levels> methods) {
    /** By the table alone, whatever it leaves open. */
    public static final Paces TABLE = new Paces(0, Score.TABLE, Score.TABLE, Map.of());

    /**
     * Of one method.
     *
     * @param unseen of a product that nobody has shown
     * @param products by name, of those asked for
     */
    public record Levels(Level unseen, Map<String, Level> products) {
        public Levels {
            products = Map.copyOf(products);
        }
    }

    /**
     * Of one product.
     *
     * @param mean log of how many times as fast as by the table
     * @param loading how far it goes along with the others of its method
     * @param own spread of what it does not share with them
     * @param table share of the mean that still comes from the table, 0 to 1
     */
    public record Level(double mean, double loading, double own, double table) {}

    public Paces {
        methods = Map.copyOf(methods);
    }

    boolean isTable() {
        return methods.isEmpty();
    }

    /**
     * Of a product.
     *
     * @param method null for one that is not described
     * @param shared spread by the table of what all chains of a rider share
     * @param own spread by the table of what a product has alone
     */
    Level level(@Nullable Method method, String product, double shared, double own) {
        Levels levels = method == null ? null : methods.get(method);
        if (levels != null) {
            return levels.products().getOrDefault(product, levels.unseen());
        }
        // What all chains of a rider share by the table is the rider's own and what the table has wrong of the method.
        return new Level(0, Math.sqrt(Math.max(0, shared * shared - rider * rider)), own, 1);
    }
}
