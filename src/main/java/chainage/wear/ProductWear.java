package chainage.wear;

import chainage.exposure.ChainExposure;
import chainage.exposure.RideExposure;
import chainage.inference.Density;
import chainage.quantity.Estimate;
import java.util.List;

/**
 * How fast chains wear under one product, from the chains that were ridden mostly on it.
 *
 * <p>Each product has a level of its own, Normal(0, shared²) before any reading, around which the chains of that product
 * spread as chains do. Products are judged apart: what would make all of a rider's chains wear alike is counted in each,
 * so that a comparison is cautious.
 *
 * @param product its name
 * @param tableRate per cent per 1000 km of dry clean road at the reference load, by the table
 * @param logPace log of how many times faster than that its chains wear
 * @param chains with readings behind it
 * @param readings on them
 */
public record ProductWear(String product, double tableRate, Density logPace, int chains, int readings) {
    /** A chain speaks for a product that makes up this share of its expected elongation; our choice. */
    private static final double MOSTLY = 0.8;

    /** Per cent per 1000 km of dry clean road at the reference load: 10, 50 and 90 %. */
    public Estimate percentPer1000Km() {
        return new Estimate(rate(0.1), rate(0.5), rate(0.9));
    }

    private double rate(double p) {
        return tableRate * Math.exp(logPace.quantile(p));
    }

    /** Chance that chains wear more slowly under this product than under another, the two judged apart. */
    public double isSlower(ProductWear other) {
        double shift = Math.log(tableRate / other.tableRate);
        return logPace.isBelow(other.logPace, u -> u + shift);
    }

    /** Chains of those that speak for a product and have readings. */
    static List<ChainExposure> speaking(List<ChainExposure> chains, WearModel model, String product) {
        return chains.stream()
                .filter(c -> !model.readings(c.chain().chain()).isEmpty() && speaks(c, product))
                .toList();
    }

    private static boolean speaks(ChainExposure chain, String product) {
        double of = chain.rides().stream()
                .filter(r -> r.product().product().equals(product))
                .mapToDouble(RideExposure::elongationPercent)
                .sum();
        return of > 0 && of >= MOSTLY * chain.elongationPercent();
    }
}
