package chainage.wear;

import chainage.inference.Gaussian;
import chainage.ledger.Reading;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;

/**
 * What the chains of a rider share, in their order: the rider's pace, how much wet and grit count, what each tool reads
 * too long, and each product's pace.
 */
final class Unknowns {
    static final int WET = 1;
    static final int GRIT = 2;
    static final int TOOLS = 3;
    private static final List<Reading.Tool> ALL_TOOLS = List.of(Reading.Tool.values());
    private static final int PRODUCTS = TOOLS + ALL_TOOLS.size();
    /** In place of no spread at all, so that it still has an inverse; too little to be seen. */
    private static final double NONE = 1e-6;

    private final WearModel.Prior prior;
    private final List<String> products;

    Unknowns(WearModel.Prior prior, Collection<String> products) {
        this.prior = prior;
        this.products = List.copyOf(products);
    }

    /** A tool's place among the tools. */
    static int place(Reading.Tool tool) {
        return ALL_TOOLS.indexOf(tool);
    }

    double[] spreads() {
        double[] spreads = new double[PRODUCTS + products.size()];
        for (int i = 0; i < spreads.length; i++) {
            double spread =
                    i == 0 ? prior.shared() : i < TOOLS ? prior.road() : i < PRODUCTS ? prior.bias() : prior.product();
            spreads[i] = Math.max(NONE, spread);
        }
        return spreads;
    }

    /** The multipliers of a product's pace with this rider: the rider's own and the product's. */
    double[] pace(Map<String, Double> shares) {
        double[] pace = new double[PRODUCTS + products.size()];
        pace[0] = 1;
        for (int p = 0; p < products.size(); p++) {
            pace[PRODUCTS + p] = shares.getOrDefault(products.get(p), 0.0);
        }
        return pace;
    }

    /** Variance that products of which no chain tells add to a pace. */
    double unseen(Map<String, Double> shares) {
        return shares.entrySet().stream()
                .filter(e -> !products.contains(e.getKey()))
                .mapToDouble(e -> Math.pow(e.getValue() * prior.product(), 2))
                .sum();
    }

    /** The multipliers of one unknown. */
    double[] alone(int unknown) {
        double[] alone = new double[PRODUCTS + products.size()];
        alone[unknown] = 1;
        return alone;
    }

    /**
     * What a chain asks of them.
     *
     * @param view its sums: those of {@code of}, then its pace
     * @param of which unknown each is, the pace left out
     */
    record Part(Gaussian.View view, List<Integer> of) {}

    Part part(ChainWear chain, Gaussian known) {
        List<Integer> of = new ArrayList<>();
        if (prior.road() > 0 && chain.total().hasWet()) {
            of.add(WET);
        }
        if (prior.road() > 0 && chain.total().hasGrit()) {
            of.add(GRIT);
        }
        for (Reading.Tool tool : ALL_TOOLS) {
            if (prior.bias() > 0 && chain.readBy(tool)) {
                of.add(TOOLS + place(tool));
            }
        }
        List<double[]> sums = new ArrayList<>();
        of.forEach(i -> sums.add(alone(i)));
        sums.add(pace(chain.products()));
        return new Part(known.view(sums, prior.own() * prior.own() + unseen(chain.products())), List.copyOf(of));
    }
}
