package chainage.wear;

import chainage.inference.Gaussian;
import chainage.inference.Normal;
import chainage.quantity.Estimate;

/**
 * How fast chains wear under one product, from all chains that were ridden on it, each by the share of its wear.
 *
 * <p>What makes all of a rider's chains wear alike is in each product's pace, and falls out where two are compared.
 */
public final class ProductWear {
    /** A chain speaks for a product that makes up this share of its expected elongation; our choice. */
    static final double SPEAKS = 0.8;

    private final String product;
    private final double tableRate;
    private final Gaussian shared;
    private final double[] of;
    private final double unseen;
    private final int chains;
    private final int readings;

    /**
     * By what all chains share.
     *
     * @param tableRate per cent per 1000 km of dry clean road at the reference load, by the table
     * @param of the sum of the shared unknowns that is the log of its pace against the table
     * @param unseen variance beside, where no chain tells of it
     * @param chains with readings behind it
     * @param readings on them
     */
    ProductWear(
            String product, double tableRate, Gaussian shared, double[] of, double unseen, int chains, int readings) {
        this.product = product;
        this.tableRate = tableRate;
        this.shared = shared;
        this.of = of;
        this.unseen = unseen;
        this.chains = chains;
        this.readings = readings;
    }

    public String product() {
        return product;
    }

    /** Per cent per 1000 km of dry clean road at the reference load, by the table. */
    public double tableRate() {
        return tableRate;
    }

    /** Chains with readings that speak for it. */
    public int chains() {
        return chains;
    }

    /** Readings on them. */
    public int readings() {
        return readings;
    }

    /** Per cent per 1000 km of dry clean road at the reference load: 10, 50 and 90 %. */
    public Estimate percentPer1000Km() {
        double spread = Normal.Z90 * Math.sqrt(shared.variance(of) + unseen);
        double likely = tableRate * Math.exp(shared.mean(of));
        return new Estimate(likely * Math.exp(-spread), likely, likely * Math.exp(spread));
    }

    /** Chance that chains wear more slowly under this product than under another. */
    public double isSlower(ProductWear other) {
        double[] apart = apart(other);
        double mean = Math.log(tableRate / other.tableRate) + shared.mean(apart);
        return Normal.probability(-mean / Math.sqrt(variance(other)));
    }

    /** Variance of the log of the ratio of the paces under two products. */
    public double variance(ProductWear other) {
        return Math.max(1e-12, shared.variance(apart(other)) + unseen + other.unseen);
    }

    private double[] apart(ProductWear other) {
        double[] apart = of.clone();
        for (int i = 0; i < apart.length; i++) {
            apart[i] -= other.of[i];
        }
        return apart;
    }

    @Override
    public String toString() {
        return product + " " + percentPer1000Km() + " by " + chains;
    }
}
