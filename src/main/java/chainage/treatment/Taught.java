package chainage.treatment;

import chainage.inference.Score;
import chainage.ledger.Method;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * From where a rider's treatments start: the table, moved by what other riders' chains have shown.
 *
 * @param scores as in {@link LifePrior}
 * @param methods of which others have shown something
 */
public record Taught(List<Score> scores, Map<Method, Levels> methods) {
    /** By the table alone. */
    static final Taught NOTHING = new Taught(List.of(Score.TABLE, Score.TABLE, Score.TABLE), Map.of());

    /**
     * Levels of one method.
     *
     * @param unseen of a product that nobody has shown
     * @param products by name, of those asked for
     */
    public record Levels(Level unseen, Map<String, Level> products) {
        public Levels {
            products = Map.copyOf(products);
        }
    }

    public Taught {
        scores = List.copyOf(scores);
        methods = Map.copyOf(methods);
    }

    /**
     * Of a product.
     *
     * @param own how products lie about their method by the table
     */
    Level level(Method method, String product, Own own) {
        @Nullable Levels levels = methods.get(method);
        return levels == null ? Level.table(own) : levels.products().getOrDefault(product, levels.unseen());
    }
}
