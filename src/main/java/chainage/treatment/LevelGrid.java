package chainage.treatment;

import chainage.inference.NormalTable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * What is known of a product's typical life: its log on grids, one for each value of the unknowns, with the weight of
 * each chance of an end unremarked.
 */
final class LevelGrid {
    /**
     * One value of the unknowns.
     *
     * @param logLife ascending and even, logs of metres of dry clean road as they count there
     * @param weights at each chance of an end unremarked, then at each life
     * @param level the same summed over the chances
     * @param counted log of how much more the usual mix of roads counts there than by the middle of what is known
     */
    @SuppressWarnings("ArrayRecordComponent") // columns of sums; nobody holds one against another
    record Part(LifeUnknowns unknowns, double[] logLife, double[] weights, double[] level, double counted) {
        double step() {
            return logLife[1] - logLife[0];
        }

        double weight() {
            double sum = 0;
            for (double w : level) {
                sum += w;
            }
            return sum;
        }

        /** Chance that a single life is over by then, of the k-th typical one. */
        double over(double logMetres, int k) {
            return NormalTable.probability((logMetres + counted - logLife[k]) / unknowns.single());
        }

        /**
         * Adds the chances that a single life is over.
         *
         * @param over by distance, as in {@code logMetres}
         */
        void addOver(double[] logMetres, double[] over) {
            for (int k = 0; k < level.length; k++) {
                double w = level[k];
                if (w > LIGHT) {
                    for (int m = 0; m < over.length; m++) {
                        over[m] += w * over(logMetres[m], k);
                    }
                }
            }
        }

        /** Weight of typical lives up to one, within a cell in a straight line. */
        double below(double log) {
            double t = (log - logLife[0]) / step() + 0.5;
            double sum = 0;
            for (int k = 0; k < level.length && t > k; k++) {
                sum += level[k] * Math.min(1, t - k);
            }
            return sum;
        }
    }

    /** Less likely than this nothing is taken to be, so that it can be taken out again. */
    private static final double LEAST = 1e-12;

    /** What weighs less is left out. */
    private static final double LIGHT = 1e-9;

    private final List<Part> parts = new ArrayList<>();

    void add(LifeUnknowns unknowns, double[] logLife, double[] weights, double counted) {
        double[] level = new double[logLife.length];
        for (int i = 0; i < weights.length; i++) {
            level[i % level.length] += weights[i];
        }
        parts.add(new Part(unknowns, logLife, weights, level, counted));
    }

    List<Part> parts() {
        return parts;
    }

    /** With weights that sum to 1. */
    LevelGrid normalised() {
        double all = parts.stream().mapToDouble(Part::weight).sum();
        LevelGrid same = new LevelGrid();
        for (Part p : parts) {
            double[] weights = p.weights().clone();
            for (int i = 0; i < weights.length; i++) {
                weights[i] /= all;
            }
            same.add(p.unknowns(), p.logLife(), weights, p.counted());
        }
        return same;
    }

    /**
     * What one life says at each part: the same whatever else is known, so that it serves as often as it is asked for.
     *
     * @param likelihoods by part, as {@link SeenLives#likelihood} has them
     * @param over by part, for each distance, then for each typical life: chance that a single life is over by then
     */
    @SuppressWarnings("ArrayRecordComponent") // columns of sums; nobody holds one against another
    record Voice(List<double[]> likelihoods, List<double[]> over) {}

    /**
     * What one life says.
     *
     * @param logMetres logs of the distances that are asked for, as the usual mix counts
     */
    Voice voice(SeenLives seen, double... logMetres) {
        List<double[]> likelihoods = new ArrayList<>();
        List<double[]> over = new ArrayList<>();
        for (Part p : parts) {
            double[] at = seen.likelihood(p.unknowns(), p.logLife());
            for (int i = 0; i < at.length; i++) {
                at[i] = Math.max(LEAST, at[i]);
            }
            likelihoods.add(at);
            int points = p.logLife().length;
            double[] by = new double[logMetres.length * points];
            for (int m = 0; m < logMetres.length; m++) {
                for (int k = 0; k < points; k++) {
                    by[m * points + k] = p.over(logMetres[m], k);
                }
            }
            over.add(by);
        }
        return new Voice(likelihoods, over);
    }

    /** The same without what a life says that is in it. */
    LevelGrid without(Voice voice) {
        LevelGrid others = new LevelGrid();
        for (int n = 0; n < parts.size(); n++) {
            Part p = parts.get(n);
            double[] weights = p.weights().clone();
            double[] at = voice.likelihoods().get(n);
            for (int i = 0; i < weights.length; i++) {
                weights[i] /= at[i];
            }
            others.add(p.unknowns(), p.logLife(), weights, p.counted());
        }
        return others.normalised();
    }

    /**
     * The same as {@link #isOver} of {@link #without}, at the distances that the life is asked for, without making that
     * grid.
     */
    double[] areOverWithout(Voice voice) {
        double[] level = new double[parts.get(0).level().length];
        double[] over = new double[voice.over().get(0).length / level.length];
        double all = 0;
        for (int n = 0; n < parts.size(); n++) {
            double[] weights = parts.get(n).weights();
            double[] at = voice.likelihoods().get(n);
            Arrays.fill(level, 0);
            for (int row = 0; row < at.length; row += level.length) {
                for (int k = 0; k < level.length; k++) {
                    level[k] += weights[row + k] / at[row + k];
                }
            }
            for (double w : level) {
                all += w;
            }
            addOver(level, voice.over().get(n), over);
        }
        for (int m = 0; m < over.length; m++) {
            over[m] /= all;
        }
        return over;
    }

    /** The same as {@link #areOver}, at the distances that a life is asked for, which is left in. */
    double[] areOverWith(Voice voice) {
        int points = parts.get(0).level().length;
        double[] over = new double[voice.over().get(0).length / points];
        for (int n = 0; n < parts.size(); n++) {
            addOver(parts.get(n).level(), voice.over().get(n), over);
        }
        return over;
    }

    private static void addOver(double[] level, double[] by, double[] over) {
        for (int k = 0; k < level.length; k++) {
            double w = level[k];
            if (w > LIGHT) {
                for (int m = 0; m < over.length; m++) {
                    over[m] += w * by[m * level.length + k];
                }
            }
        }
    }

    /** Weighs by a silence: lasted so long, or its end went by unremarked. */
    static void silent(Life life, LifeUnknowns u, double[] logLife, double[] weights) {
        double[] over = new double[logLife.length];
        SeenLives.over(life.after().metres(u.leaning()), u.single(), logLife, over);
        for (int i = 0; i < weights.length; i++) {
            double told = 1 - LifePrior.unremarked(i / over.length);
            weights[i] *= 1 - told * over[i % over.length];
        }
    }

    /** Chance that a single life is over by so many metres, as the usual mix counts. */
    double isOver(double logMetres) {
        return areOver(logMetres)[0];
    }

    /** The same at several distances, logs. */
    double[] areOver(double... logMetres) {
        double[] over = new double[logMetres.length];
        for (Part p : parts) {
            p.addOver(logMetres, over);
        }
        return over;
    }

    /** Chance that the typical life is at most so many metres of dry clean road. */
    double isTypicallyBelow(double logMetres) {
        double sum = 0;
        for (Part p : parts) {
            sum += p.below(logMetres);
        }
        return sum;
    }

    /** Chance that this one's typical life is the longer, both by the same unknowns. */
    double isLonger(LevelGrid other) {
        double sum = 0;
        for (int n = 0; n < parts.size(); n++) {
            Part mine = parts.get(n);
            Part its = other.parts.get(n);
            double weight = its.weight();
            for (int k = 0; k < mine.level().length && weight > 0; k++) {
                sum += mine.level()[k] * its.below(mine.logLife()[k]) / weight;
            }
        }
        return sum;
    }

    /** Variance of the log of the typical life. */
    double variance() {
        double sum = 0;
        double squares = 0;
        for (Part p : parts) {
            for (int k = 0; k < p.level().length; k++) {
                sum += p.level()[k] * p.logLife()[k];
                squares += p.level()[k] * p.logLife()[k] * p.logLife()[k];
            }
        }
        return squares - sum * sum;
    }

    double least() {
        return parts.stream()
                .mapToDouble(p -> p.logLife()[0] - p.counted())
                .min()
                .orElseThrow();
    }

    double most() {
        return parts.stream()
                .mapToDouble(p -> p.logLife()[p.logLife().length - 1] - p.counted())
                .max()
                .orElseThrow();
    }

    /** The greatest spread of single lives that it holds, log. */
    double widest() {
        return parts.stream().mapToDouble(p -> p.unknowns().single()).max().orElseThrow();
    }
}
