package chainage.treatment;

import chainage.exposure.Factors;
import chainage.inference.Score;
import java.util.List;

/**
 * What is taken of a rider's treatments, ears and notes before anything of them is known. All of it is our guess and
 * stands in the table of factors.
 *
 * @param wider how many times wider than the table's interval the typical life is taken to be, in the log
 * @param product spread about their method of products that are alike, log
 * @param odd share of products that are not alike
 * @param far spread of those about their method, log
 * @param single typical spread of single lives about the typical one, log
 * @param singleDoubt how well that is known, log of the spread
 * @param leaning spread of the log of each {@link chainage.exposure.Leaning}
 * @param mistaken chance that a stated noise, or quiet, is a mistake or of something else
 * @param stray spread of such noises about the table's life, log
 * @param unremarked mean chance of a rider who remarks that an end goes by without
 * @param never chance that a rider never remarks
 * @param scores of how wet roads count, of how dirty ones do, and of the spread of single lives
 */
record LifePrior(
        double wider,
        double product,
        double odd,
        double far,
        double single,
        double singleDoubt,
        double leaning,
        double mistaken,
        double stray,
        double unremarked,
        double never,
        List<Score> scores) {
    /** A product's own part of the spread is at most this share of the whole, so that something is left to share. */
    private static final double MOST_OWN = 0.95;

    /** Chances that an end goes by unremarked, for which everything is worked out; the last is never to remark. */
    private static final double[] UNREMARKED = {0.02, 0.07, 0.15, 0.27, 0.43, 0.65, 1};

    static LifePrior of(Factors factors) {
        return new LifePrior(
                factors.value("life.wider"),
                factors.value("life.product"),
                Math.min(1, factors.value("life.product.odd")),
                factors.value("life.product.far"),
                factors.value("life.single"),
                factors.value("life.single.doubt"),
                factors.value("life.leaning"),
                Math.min(0.5, factors.value("life.mistaken")),
                factors.value("life.stray"),
                Math.min(0.9, factors.value("life.unremarked")),
                Math.min(0.9, factors.value("life.never")),
                List.of(Score.TABLE, Score.TABLE, Score.TABLE));
    }

    /** The same with what other riders have shown of the unknowns. */
    LifePrior with(List<Score> taught) {
        return new LifePrior(
                wider,
                product,
                odd,
                far,
                single,
                singleDoubt,
                leaning,
                mistaken,
                stray,
                unremarked,
                never,
                List.copyOf(taught));
    }

    /** True when it is by the table alone. */
    boolean isTable() {
        return scores.stream().allMatch(Score.TABLE::equals);
    }

    /** How a product's level lies about that of its method; less spread than a level has in all. */
    Own own(LifeShape shape) {
        Own own = new Own(product / shape.spread(), far / shape.spread(), odd);
        double least = Math.min(1, MOST_OWN / own.sd());
        return new Own(own.near() * least, own.far() * least, odd);
    }

    /** How many chances of an end unremarked there are. */
    static int unremarkedCount() {
        return UNREMARKED.length;
    }

    static double unremarked(int i) {
        return UNREMARKED[i];
    }

    /**
     * Probability of each of them: of a rider who remarks by the distribution 1 − (1 − ε)^b, b so that its mean is as
     * stated, each chance standing for those nearest to it.
     */
    double[] unremarkedWeights() {
        double b = 1 / unremarked - 1;
        int last = UNREMARKED.length - 1;
        double[] weights = new double[last + 1];
        double below = 0;
        for (int i = 0; i < last; i++) {
            double to = i == last - 1 ? 1 : (UNREMARKED[i] + UNREMARKED[i + 1]) / 2;
            double by = 1 - Math.pow(1 - to, b);
            weights[i] = (1 - never) * (by - below);
            below = by;
        }
        weights[last] = never;
        return weights;
    }
}
