package chainage.treatment;

import chainage.exposure.Leaning;
import chainage.exposure.Mix;
import chainage.inference.NormalTable;
import java.util.Arrays;
import java.util.List;

/**
 * How likely what was seen of a product is, for any of its typical lives and any chance that an end goes by unremarked.
 *
 * <p>With S the chance that a life lasts so long, ε that its end goes unremarked and o that a statement is mistaken: a
 * noise (1 − o) (1 − ε) (S(before the ride) − S(after it)) + o · stray, a silence S + ε (1 − S), a quiet that was stated
 * (1 − o) S + o.
 */
final class SeenLives {
    /** Typical lives on a grid: enough that sums over it are exact to about 1 in 10,000. */
    static final int POINTS = 33;
    /** After so many factors the products are scaled anew, so that none is lost. */
    private static final int SCALED = 24;

    private final List<Life> lives;
    private final double[] stray;
    private final Mix mix;
    private final LifePrior prior;

    /**
     * Of one product.
     *
     * @param lives closed ones
     * @param logTable log of the table's likely life, metres
     */
    SeenLives(List<Life> lives, double logTable, LifePrior prior) {
        this.lives = List.copyOf(lives);
        this.prior = prior;
        stray = new double[lives.size()];
        Mix sum = Mix.NONE;
        for (int i = 0; i < stray.length; i++) {
            Life life = lives.get(i);
            sum = sum.plus(life.after());
            stray[i] = (below(life.after().metres(Leaning.NONE), logTable, prior.stray())
                    - below(life.before().metres(Leaning.NONE), logTable, prior.stray()));
        }
        mix = sum;
    }

    /** All that was ridden on them. */
    Mix mix() {
        return mix;
    }

    boolean isEmpty() {
        return lives.isEmpty();
    }

    private static double below(double metres, double logLife, double spread) {
        return metres <= 0 ? 0 : NormalTable.probability((Math.log(metres) - logLife) / spread);
    }

    /** Likelihoods at each chance of an end unremarked, then at each typical life, the greatest being 1; and its log. */
    @SuppressWarnings("ArrayRecordComponent") // columns of sums; nobody holds one against another
    record Table(double[] at, double log) {}

    /**
     * Likelihoods.
     *
     * @param logLife logs of typical lives, {@link #POINTS} of them
     */
    Table table(LifeUnknowns u, double[] logLife) {
        int points = logLife.length;
        int chances = LifePrior.unremarkedCount();
        double[] product = new double[chances * points];
        Arrays.fill(product, 1);
        double[] log = new double[chances * points];
        double[] from = new double[points];
        double[] to = new double[points];
        int since = 0;
        for (int i = 0; i < lives.size(); i++) {
            weigh(i, u, logLife, from, to, product);
            if (++since == SCALED) {
                gather(product, log);
                since = 0;
            }
        }
        gather(product, log);
        double most = Double.NEGATIVE_INFINITY;
        for (double v : log) {
            most = Math.max(most, v);
        }
        for (int k = 0; k < log.length; k++) {
            product[k] = Math.exp(log[k] - most);
        }
        return new Table(product, most);
    }

    /**
     * Likelihoods at each chance of an end unremarked, then at each typical life, as they are: of few lives, since the
     * product of many is too small for a number.
     */
    double[] likelihood(LifeUnknowns u, double[] logLife) {
        double[] product = new double[LifePrior.unremarkedCount() * logLife.length];
        Arrays.fill(product, 1);
        for (int i = 0; i < lives.size(); i++) {
            weigh(i, u, logLife, new double[logLife.length], new double[logLife.length], product);
        }
        return product;
    }

    /** Multiplies by what one life says; the columns in between are overwritten. */
    private void weigh(int i, LifeUnknowns u, double[] logLife, double[] from, double[] to, double[] product) {
        int points = logLife.length;
        Life life = lives.get(i);
        over(life.after().metres(u.leaning()), u.single(), logLife, to);
        if (life.ended()) {
            over(life.before().metres(u.leaning()), u.single(), logLife, from);
        }
        for (int e = 0; e < LifePrior.unremarkedCount(); e++) {
            double told = 1 - LifePrior.unremarked(e);
            double ended = (1 - prior.mistaken()) * told;
            double mistaken = prior.mistaken() * stray[i] + 1e-12;
            int row = e * points;
            switch (life.end()) {
                case NOISY -> {
                    for (int k = 0; k < points; k++) {
                        product[row + k] *= ended * (to[k] - from[k]) + mistaken;
                    }
                }
                case QUIET -> {
                    for (int k = 0; k < points; k++) {
                        product[row + k] *= 1 - (1 - prior.mistaken()) * to[k];
                    }
                }
                default -> {
                    for (int k = 0; k < points; k++) {
                        product[row + k] *= 1 - told * to[k];
                    }
                }
            }
        }
    }

    private static void gather(double[] product, double[] log) {
        for (int k = 0; k < log.length; k++) {
            log[k] += Math.log(Math.max(1e-300, product[k]));
            product[k] = 1;
        }
    }

    /** Chance that a life is over by then, for each typical life. */
    static void over(double metres, double single, double[] logLife, double[] to) {
        if (metres <= 0) {
            Arrays.fill(to, 0);
            return;
        }
        NormalTable.probabilities(Math.log(metres), logLife, single, to);
    }
}
