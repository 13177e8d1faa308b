package chainage.wear;

import chainage.inference.Normal;
import chainage.inference.Student;
import chainage.ledger.Reading;

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
}
