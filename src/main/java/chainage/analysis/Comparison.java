package chainage.analysis;

import chainage.comparison.ComparedProduct;
import chainage.comparison.PairComparison;
import chainage.comparison.Spreads;
import chainage.ledger.Event;
import chainage.treatment.ProductLife;
import java.util.Collection;
import java.util.List;

/**
 * Products held against each other by what the rider saw of them.
 *
 * @param products in the order asked for
 * @param pairs every two of them in every respect
 */
public record Comparison(List<ComparedProduct> products, List<PairComparison> pairs) {
    public Comparison {
        products = List.copyOf(products);
        pairs = List.copyOf(pairs);
    }

    /**
     * Compares products.
     *
     * @param wanted none of the method none; empty for all that were used
     */
    public static Comparison of(Analysis analysis, Collection<Event.ProductDescribed> wanted) {
        Collection<Event.ProductDescribed> chosen = wanted.isEmpty()
                ? analysis.estimates().lives().products().stream()
                        .map(ProductLife::product)
                        .toList()
                : wanted;
        List<ComparedProduct> products = chosen.stream()
                .map(p -> ComparedProduct.of(
                        p, analysis.estimates().lives(), analysis.estimates().wear(), analysis.factors()))
                .toList();
        return new Comparison(products, PairComparison.of(products, Spreads.of(analysis.factors())));
    }
}
