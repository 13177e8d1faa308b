package chainage.wear;

import chainage.inference.Gaussian;
import chainage.ledger.Method;
import chainage.ledger.Reading;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;

/**
 * What the chains of a rider share, in their order: the rider's pace, how much wet and grit count, what each tool reads
 * too long, each product's pace, and what the products of a method have in common where others have taught of it.
 */
final class WearUnknowns {
    static final int WET = 1;
    static final int GRIT = 2;
    static final int TOOLS = 3;
    private static final List<Reading.Tool> ALL_TOOLS = List.of(Reading.Tool.values());
    private static final int PRODUCTS = TOOLS + ALL_TOOLS.size();
    /** In place of no spread at all, so that it still has an inverse; too little to be seen. */
    private static final double NONE = 1e-6;

    private final WearModel.Prior prior;
    private final Paces taught;
    private final List<String> products;
    private final List<Paces.Level> levels;
    private final List<Integer> methods;
    private final int size;

    /**
     * Of some products.
     *
     * @param methods of the products, where they are known
     */
    WearUnknowns(WearModel.Prior prior, Paces taught, Collection<String> products, Map<String, Method> methods) {
        this.prior = prior;
        this.taught = taught;
        this.products = List.copyOf(products);
        levels = this.products.stream()
                .map(p -> taught.level(methods.get(p), p, prior.shared(), prior.product()))
                .toList();
        List<Method> all = new ArrayList<>(new TreeSet<>(methods.values()));
        this.methods = this.products.stream()
                .map(p -> taught.isTable() || !methods.containsKey(p) ? -1 : all.indexOf(methods.get(p)))
                .toList();
        size = PRODUCTS + this.products.size() + (taught.isTable() ? 0 : all.size());
    }

    /** A tool's place among the tools. */
    static int place(Reading.Tool tool) {
        return ALL_TOOLS.indexOf(tool);
    }

    double[] means() {
        double[] means = new double[size];
        means[WET] = prior.road() * taught.wet().mean();
        means[GRIT] = prior.road() * taught.grit().mean();
        for (int p = 0; p < products.size(); p++) {
            means[PRODUCTS + p] = levels.get(p).mean();
        }
        return means;
    }

    double[] spreads() {
        double[] spreads = new double[size];
        for (int i = 0; i < size; i++) {
            spreads[i] = Math.max(NONE, spread(i));
        }
        return spreads;
    }

    private double spread(int i) {
        if (i == 0) {
            return taught.isTable() ? prior.shared() : taught.rider();
        }
        if (i < TOOLS) {
            return prior.road() * (i == WET ? taught.wet() : taught.grit()).sd();
        }
        if (i < PRODUCTS) {
            return prior.bias();
        }
        return i < PRODUCTS + products.size() ? levels.get(i - PRODUCTS).own() : 1;
    }

    /** The multipliers of a product's pace with this rider: the rider's own, the products', and their methods'. */
    double[] pace(Map<String, Double> shares) {
        double[] pace = new double[size];
        pace[0] = 1;
        for (int p = 0; p < products.size(); p++) {
            double share = shares.getOrDefault(products.get(p), 0.0);
            pace[PRODUCTS + p] = share;
            if (methods.get(p) >= 0) {
                pace[PRODUCTS + products.size() + methods.get(p)] +=
                        share * levels.get(p).loading();
            }
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

    /** Variance of the pace of a chain before any reading of this rider's. */
    double before(Map<String, Double> shares) {
        double[] pace = pace(shares);
        double variance = prior.own() * prior.own() + unseen(shares);
        for (int i = 0; i < size; i++) {
            variance += Math.pow(pace[i] * spread(i), 2);
        }
        return variance;
    }

    /** Share of a pace that comes from the table still, before any reading of this rider's. */
    double table(Map<String, Double> shares) {
        double table = 1;
        for (int p = 0; p < products.size(); p++) {
            table -= shares.getOrDefault(products.get(p), 0.0)
                    * (1 - levels.get(p).table());
        }
        return Math.max(0, table);
    }

    /** The multipliers of one unknown. */
    double[] alone(int unknown) {
        double[] alone = new double[size];
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
