package chainage.treatment;

import chainage.exposure.Leaning;
import chainage.quantity.Lazy;
import java.util.ArrayList;
import java.util.List;

/**
 * The products of one method. Level of product i: z_i = mean_i + loading_i f + e_i, f ~ Normal(0, 1) the same for all,
 * e_i its own ({@link Level}); log of its typical life by {@link LifeShape}.
 */
final class LifeFamily {
    private static final int COARSE = 61;
    private static final double REACH = 5.5;
    private static final int SHARED_POINTS = 21;
    /** A level this far below the best, in the log, is out of the grid. */
    private static final double NOTHING = 14;

    private final LifeShape shape;
    private final List<Level> levels;
    private final List<SeenLives> members = new ArrayList<>();
    private final double[] shared = new double[SHARED_POINTS];
    private final double[] sharedWeight = new double[SHARED_POINTS];
    /** Grids of the logs of typical lives, as the table counts; by member. */
    private final List<double[]> grids = new ArrayList<>();

    /**
     * Of one method.
     *
     * @param levels what is known of each product beforehand
     * @param seen closed lives of each product; a product may have none
     */
    LifeFamily(LifeShape shape, List<Level> levels, List<SeenLives> seen) {
        this.shape = shape;
        this.levels = List.copyOf(levels);
        members.addAll(seen);
        double all = 0;
        for (int j = 0; j < SHARED_POINTS; j++) {
            double at = 4.5 * (2.0 * j / (SHARED_POINTS - 1) - 1);
            shared[j] = at;
            sharedWeight[j] = Math.exp(-at * at / 2);
            all += sharedWeight[j];
        }
        for (int j = 0; j < SHARED_POINTS; j++) {
            sharedWeight[j] /= all;
        }
    }

    /** Fits each member's grid to where its level can be, by these unknowns. */
    void fit(LifeUnknowns u, double[] unremarked) {
        grids.clear();
        for (int i = 0; i < members.size(); i++) {
            SeenLives seen = members.get(i);
            Level level = levels.get(i);
            double reach = REACH * Math.max(1, level.sd());
            double[] coarse = even(shape.logLife(level.mean() - reach), shape.logLife(level.mean() + reach), COARSE);
            double shift = shift(seen, u);
            double[] at = coarse.clone();
            for (int k = 0; k < at.length; k++) {
                at[k] += shift;
            }
            SeenLives.Table table = seen.table(u, at);
            double[] log = new double[COARSE];
            double most = Double.NEGATIVE_INFINITY;
            for (int k = 0; k < COARSE; k++) {
                double sum = 0;
                for (int e = 0; e < unremarked.length; e++) {
                    sum += unremarked[e] * table.at()[e * COARSE + k];
                }
                log[k] =
                        Math.log(Math.max(1e-300, sum)) + Math.log(Math.max(1e-300, level.density(shape.level(at[k]))));
                most = Math.max(most, log[k]);
            }
            int first = 0;
            while (log[first] < most - NOTHING) {
                first++;
            }
            int last = COARSE - 1;
            while (log[last] < most - NOTHING) {
                last--;
            }
            grids.add(even(coarse[Math.max(0, first - 1)], coarse[Math.min(COARSE - 1, last + 1)], SeenLives.POINTS));
        }
    }

    private static double[] even(double from, double to, int points) {
        double[] at = new double[points];
        for (int k = 0; k < points; k++) {
            at[k] = from + (to - from) * k / (points - 1);
        }
        return at;
    }

    /** Where roads count more, what was seen was longer: the grid goes along. */
    private static double shift(SeenLives seen, LifeUnknowns u) {
        return seen.isEmpty()
                ? 0
                : Math.log(seen.mix().metres(u.leaning()) / seen.mix().metres(Leaning.NONE));
    }

    /**
     * What is known of the members at one value of the unknowns.
     *
     * @param log log of the scale of all that follows
     * @param evidence by chance of an end unremarked
     * @param logLife by member, logs of typical lives
     * @param weights by member: at each chance of an end unremarked, then at each typical life; their sum over lives is the
     *     evidence
     * @param others by chance, then by shared level: the evidence, for a product of which nothing is seen
     */
    @SuppressWarnings("ArrayRecordComponent") // columns of sums; nobody holds one against another
    record At(double log, double[] evidence, List<double[]> logLife, List<double[]> weights, Lazy<double[]> others) {}

    At at(LifeUnknowns u) {
        return members.size() == 1 ? alone(u) : together(u);
    }

    /** One product shares with nobody: what it has in common with others needs no sum of its own. */
    private At alone(LifeUnknowns u) {
        double[] at = grid(0, u);
        SeenLives.Table table = members.get(0).table(u, at);
        double[] weights = weights(at, table);
        return new At(
                table.log(),
                sums(weights),
                List.of(at),
                List.of(weights),
                new Lazy<>(() -> others(List.of(marginal(kernel(levels.get(0), at), table.at())))));
    }

    /** Of the only member: at each chance of an end unremarked, then at each typical life. */
    private double[] weights(double[] at, SeenLives.Table table) {
        Level level = levels.get(0);
        double half = (at[1] - at[0]) / 2;
        double[] prior = new double[at.length];
        for (int k = 0; k < at.length; k++) {
            prior[k] = level.density(shape.level(at[k])) * (shape.level(at[k] + half) - shape.level(at[k] - half));
        }
        double[] weights = new double[table.at().length];
        for (int i = 0; i < weights.length; i++) {
            weights[i] = prior[i % at.length] * table.at()[i];
        }
        return weights;
    }

    /** By chance of an end unremarked. */
    private static double[] sums(double[] weights) {
        double[] sums = new double[LifePrior.unremarkedCount()];
        int points = weights.length / sums.length;
        for (int i = 0; i < weights.length; i++) {
            sums[i / points] += weights[i];
        }
        return sums;
    }

    private double[] others(List<double[]> marginals) {
        int chances = LifePrior.unremarkedCount();
        double[] others = new double[chances * SHARED_POINTS];
        for (int e = 0; e < chances; e++) {
            for (int j = 0; j < SHARED_POINTS; j++) {
                others[e * SHARED_POINTS + j] = but(marginals, -1, e, j);
            }
        }
        return others;
    }

    private At together(LifeUnknowns u) {
        int chances = LifePrior.unremarkedCount();
        int points = SeenLives.POINTS;
        double log = 0;
        List<double[]> logLife = new ArrayList<>();
        List<double[]> likelihood = new ArrayList<>();
        List<double[]> kernels = new ArrayList<>();
        List<double[]> marginals = new ArrayList<>();
        for (int i = 0; i < members.size(); i++) {
            double[] at = grid(i, u);
            SeenLives.Table table = members.get(i).table(u, at);
            double[] kernel = kernel(levels.get(i), at);
            log += table.log();
            logLife.add(at);
            likelihood.add(table.at());
            kernels.add(kernel);
            marginals.add(marginal(kernel, table.at()));
        }
        List<double[]> weights = new ArrayList<>();
        for (int i = 0; i < members.size(); i++) {
            double[] of = new double[chances * points];
            for (int e = 0; e < chances; e++) {
                for (int j = 0; j < SHARED_POINTS; j++) {
                    double by = but(marginals, i, e, j);
                    for (int k = 0; k < points; k++) {
                        of[e * points + k] += by * kernels.get(i)[j * points + k];
                    }
                }
                for (int k = 0; k < points; k++) {
                    of[e * points + k] *= likelihood.get(i)[e * points + k];
                }
            }
            weights.add(of);
        }
        return new At(log, evidence(marginals), logLife, weights, new Lazy<>(() -> others(marginals)));
    }

    /** The evidence alone, by chance of an end unremarked; the log of its scale is added to {@code log}. */
    double[] evidence(LifeUnknowns u, double[] log) {
        if (members.size() == 1) {
            double[] at = grid(0, u);
            SeenLives.Table table = members.get(0).table(u, at);
            log[0] += table.log();
            return sums(weights(at, table));
        }
        List<double[]> marginals = new ArrayList<>();
        for (int i = 0; i < members.size(); i++) {
            double[] at = grid(i, u);
            SeenLives.Table table = members.get(i).table(u, at);
            log[0] += table.log();
            marginals.add(marginal(kernel(levels.get(i), at), table.at()));
        }
        return evidence(marginals);
    }

    private double[] evidence(List<double[]> marginals) {
        double[] evidence = new double[LifePrior.unremarkedCount()];
        for (int e = 0; e < evidence.length; e++) {
            for (int j = 0; j < SHARED_POINTS; j++) {
                evidence[e] += but(marginals, -1, e, j);
            }
        }
        return evidence;
    }

    private double[] grid(int member, LifeUnknowns u) {
        double[] at = grids.get(member).clone();
        double shift = shift(members.get(member), u);
        for (int k = 0; k < at.length; k++) {
            at[k] += shift;
        }
        return at;
    }

    /** Evidence of one member, by chance, then by shared level. */
    private static double[] marginal(double[] kernel, double[] likelihood) {
        int chances = LifePrior.unremarkedCount();
        int points = likelihood.length / chances;
        double[] marginal = new double[chances * SHARED_POINTS];
        for (int e = 0; e < chances; e++) {
            for (int j = 0; j < SHARED_POINTS; j++) {
                double sum = 0;
                for (int k = 0; k < points; k++) {
                    sum += kernel[j * points + k] * likelihood[e * points + k];
                }
                marginal[e * SHARED_POINTS + j] = sum;
            }
        }
        return marginal;
    }

    /** Prior of a shared level by all members but one. */
    private double but(List<double[]> marginals, int member, int e, int j) {
        double by = sharedWeight[j];
        for (int i = 0; i < marginals.size(); i++) {
            by *= i == member ? 1 : marginals.get(i)[e * SHARED_POINTS + j];
        }
        return by;
    }

    /** Probability of each cell of a grid of log lives, for each shared level. */
    private double[] kernel(Level level, double[] logLife) {
        int points = logLife.length;
        double[] kernel = new double[SHARED_POINTS * points];
        double half = (logLife[1] - logLife[0]) / 2;
        for (int k = 0; k < points; k++) {
            double z = shape.level(logLife[k]);
            double cell = shape.level(logLife[k] + half) - shape.level(logLife[k] - half);
            for (int j = 0; j < SHARED_POINTS; j++) {
                kernel[j * points + k] = level.own().density(z - level.mean() - level.loading() * shared[j]) * cell;
            }
        }
        return kernel;
    }

    /**
     * Weights of a product of which nothing is seen, at each chance of an end unremarked, then at each life.
     *
     * @param level what is known of it beforehand
     * @param others {@link At#others}; of a family without members, the chances alone
     */
    double[] unseen(Level level, double[] others, double[] logLife, boolean alone) {
        int chances = LifePrior.unremarkedCount();
        int points = logLife.length;
        double[] kernel = kernel(level, logLife);
        double[] of = new double[chances * points];
        for (int e = 0; e < chances; e++) {
            for (int j = 0; j < SHARED_POINTS; j++) {
                double by = alone ? others[e] * sharedWeight[j] : others[e * SHARED_POINTS + j];
                for (int k = 0; k < points; k++) {
                    of[e * points + k] += by * kernel[j * points + k];
                }
            }
        }
        return of;
    }

    /** Logs of the typical lives that a product may have of which nothing is seen. */
    double[] unseenGrid(Level level) {
        double reach = REACH * level.sd();
        return even(shape.logLife(level.mean() - reach), shape.logLife(level.mean() + reach), SeenLives.POINTS);
    }
}
