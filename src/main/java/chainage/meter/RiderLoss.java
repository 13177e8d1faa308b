package chainage.meter;

import chainage.inference.JointWitness;
import chainage.ledger.Method;
import chainage.meter.MeasuredLoss.Known;
import chainage.meter.MeasuredLoss.Meters;
import chainage.meter.MeasuredLoss.Seen;
import chainage.meter.MeasuredLoss.Start;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * What one other rider's rides with two power meters alone say of products, in a few numbers. Mostly that is how far these
 * lie apart and how their loss grows: the level of all hides in the meters' offset, so they are kept together.
 *
 * @param products that were ridden on, by method and name
 * @param said of each its level and its rise against the table, in units of what that leaves open
 */
public record RiderLoss(List<Product> products, JointWitness said) {
    /**
     * A product with this rider.
     *
     * @param rides with two power meters
     */
    public record Product(Method method, String name, int rides) {}

    /** What the table leaves open of a product's level: the common one and its own. */
    static final double LEVEL = Math.hypot(MeasuredLoss.COMMON, MeasuredLoss.OWN);

    /** The common level is as good as where the table has it, and all that is unknown of levels the products' own. */
    private static final Start ALONE = Start.apart(1e-3, LEVEL);

    /** Nothing was measured. */
    public static final RiderLoss NONE = new RiderLoss(List.of(), new JointWitness(new double[0], new double[0][0]));

    public RiderLoss {
        products = List.copyOf(products);
    }

    /**
     * Of a rider's rides.
     *
     * @param seen on products under labels
     * @param products by their labels, without numbers of rides
     */
    public static RiderLoss of(List<Seen> seen, Map<String, Product> products, Meters meters) {
        if (seen.isEmpty()) {
            return NONE;
        }
        MeasuredLoss learnt = MeasuredLoss.of(seen, List.of(), ALONE, meters, (before, behind) -> null);
        Map<String, Product> ordered = new TreeMap<>(products);
        List<Product> counted = new ArrayList<>();
        ordered.forEach((label, p) -> counted.add(new Product(p.method(), p.name(), learnt.rides(label))));
        Known known = learnt.known(List.copyOf(ordered.keySet()));
        int n = known.means().length - 1;
        double[] means = new double[n];
        double[][] covariance = new double[n][n];
        for (int i = 0; i < n; i++) {
            means[i] = (known.means()[i + 1] - i % 2) / unit(i);
            for (int j = 0; j < n; j++) {
                covariance[i][j] = known.covariance()[i + 1][j + 1] / unit(i) / unit(j);
            }
        }
        return new RiderLoss(counted, JointWitness.of(means, covariance));
    }

    /** What the table leaves open of a level or, at odd places, of a rise. */
    static double unit(int place) {
        return place % 2 == 0 ? LEVEL : MeasuredLoss.RISE;
    }

    /** How many rides there are. */
    public int rides() {
        return products.stream().mapToInt(Product::rides).sum();
    }
}
