package chainage.wear;

import chainage.inference.Normal;
import chainage.inference.Student;
import chainage.ledger.Reading;
import java.util.Arrays;

/** How likely readings are on a chain of any elongation. */
final class Likelihood {
    private Likelihood() {}

    /** What a reading was read with. */
    static Reading.Tool tool(Reading reading) {
        return reading instanceof Reading.Elongation e ? e.tool() : Reading.Tool.GAUGE;
    }

    /** What a reading says by itself, per cent: the length, or the edge that drops; minus infinity for one that passes. */
    static double says(Reading reading) {
        if (reading instanceof Reading.Elongation e) {
            return e.percent();
        }
        return reading instanceof Reading.Gauge g && g.drops() ? g.edgePercent() : Double.NEGATIVE_INFINITY;
    }

    /** Where it is read on the chain, per cent: the length, or the edge. */
    static double place(Reading reading) {
        return reading instanceof Reading.Elongation e ? e.percent() : ((Reading.Gauge) reading).edgePercent();
    }

    /**
     * Probability that a chain of this elongation, read by a tool that reads so much too long, reads as little as this or
     * less; for a gauge, that it answers as this one did. By a normal error: how far off a tool is in ordinary use, to
     * tell a slip by.
     */
    static double asLow(Reading reading, double percent, double bias) {
        double z = (place(reading) - percent - bias) / reading.errorPercent();
        return Normal.probability(reading instanceof Reading.Gauge g && g.drops() ? -z : z);
    }

    /**
     * One reading, made ready to be weighed at many elongations.
     *
     * @param place length or edge, per cent
     * @param error its error, per cent
     * @param side 0 for a length, 1 for an edge that drops, −1 for one that passes
     */
    record One(double place, double error, int side) {
        static One of(Reading reading, double moreError) {
            return new One(
                    Likelihood.place(reading),
                    Math.hypot(reading.errorPercent(), moreError),
                    reading instanceof Reading.Gauge g ? (g.drops() ? 1 : -1) : 0);
        }
    }

    /** The log of the product of many likelihoods: logs are taken only where a double would not hold the product. */
    static final class Sum {
        private static final double SMALL = 1e-200;

        private final boolean heavy;
        private double log;
        private double likelihood;
        private double lengths;

        /** By Student's distribution, else by the normal one. */
        Sum(boolean heavy) {
            this.heavy = heavy;
        }

        void begin(double first) {
            log = first;
            likelihood = 1;
            lengths = 1;
        }

        void add(One one, double percent) {
            double z = (percent - one.place) / one.error;
            if (one.side == 0) {
                if (heavy) {
                    lengths *= 1 + z * z / 4;
                    if (lengths > 1 / SMALL) {
                        log -= 2.5 * Math.log(lengths);
                        lengths = 1;
                    }
                } else {
                    log -= z * z / 2;
                }
            } else if (heavy) {
                likelihood *= Student.probability(one.side * z);
                if (likelihood < SMALL) {
                    log += Math.log(likelihood);
                    likelihood = 1;
                }
            } else {
                log += Normal.logProbability(one.side * z);
            }
        }

        double log() {
            return log + Math.log(likelihood) - 2.5 * Math.log(lengths);
        }
    }

    /**
     * Readings weighed at many elongations in one go: to the last bit what {@link Sum} makes of them one after the other,
     * in loops that hold nothing but arithmetic. A product of factors that are all at least 1, or all at most 1, never left
     * the bounds where it is within them at its end; the few that did are summed with care.
     */
    static final class Columns {
        private final Sum careful;
        private final double[] lengths;
        private final double[] edges;

        /**
         * For readings of any one chain.
         *
         * @param heavy as for {@link Sum}
         * @param count of the elongations
         */
        Columns(boolean heavy, int count) {
            this.careful = new Sum(heavy);
            this.lengths = new double[count];
            this.edges = new double[count];
        }

        /**
         * Weighs them.
         *
         * @param before logs to begin with
         * @param start elongation before the first ride, per cent
         * @param pace times which what is expected is added to it
         * @param expected at each reading, per cent
         * @param to gets the logs, in the order of the paces
         */
        void weigh(One[] ones, double[] before, double start, double[] pace, double[] expected, double[] to) {
            Arrays.fill(lengths, careful.heavy ? 1 : Double.NaN);
            Arrays.fill(edges, 1);
            boolean anyEdge = false;
            for (int k = 0; careful.heavy && k < ones.length; k++) {
                One one = ones[k];
                if (one.side == 0) {
                    length(one.place, one.error, start, pace, expected[k]);
                } else {
                    edge(one, start, pace, expected[k]);
                    anyEdge = true;
                }
            }
            for (int i = 0; i < to.length; i++) {
                if (lengths[i] <= 1 / Sum.SMALL && edges[i] >= Sum.SMALL) {
                    to[i] = before[i] + (anyEdge ? Math.log(edges[i]) : 0) - 2.5 * Math.log(lengths[i]);
                } else {
                    careful.begin(before[i]);
                    for (int k = 0; k < ones.length; k++) {
                        careful.add(ones[k], start + pace[i] * expected[k]);
                    }
                    to[i] = careful.log();
                }
            }
        }

        private void length(double place, double error, double start, double[] pace, double expected) {
            double[] product = lengths;
            for (int i = 0; i < product.length; i++) {
                double z = (start + pace[i] * expected - place) / error;
                // A quarter is exact, and a product is quicker than a quotient.
                product[i] *= 1 + z * z * 0.25;
            }
        }

        private void edge(One one, double start, double[] pace, double expected) {
            for (int i = 0; i < edges.length; i++) {
                double z = (start + pace[i] * expected - one.place) / one.error;
                edges[i] *= Student.probability(one.side * z);
            }
        }
    }
}
