package chainage.comparison;

import chainage.exposure.Factors;

/**
 * How far single things stray, in the log.
 *
 * @param life of one life about its product's typical one
 * @param chain of one chain's pace about its product's
 * @param product of a product's pace about the table's
 */
public record Spreads(double life, double chain, double product) {
    public static Spreads of(Factors factors) {
        return new Spreads(
                factors.value("life.single"),
                factors.value("wear.spread.own"),
                Math.max(1e-3, factors.value("wear.spread.product")));
    }
}
