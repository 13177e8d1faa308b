package chainage.wear;

import chainage.inference.Normal;
import chainage.ledger.Reading;

/** How likely a reading is at any elongation. */
final class Likelihood {
    private Likelihood() {}

    /** What a reading says by itself, per cent: the length, or the edge that drops; minus infinity for one that passes. */
    static double says(Reading reading) {
        if (reading instanceof Reading.Elongation e) {
            return e.percent();
        }
        return reading instanceof Reading.Gauge g && g.drops() ? g.edgePercent() : Double.NEGATIVE_INFINITY;
    }

    /** Log of how likely a reading is on a chain of this elongation, per cent; for a length a density a per cent. */
    static double log(Reading reading, double percent) {
        double error = reading.errorPercent();
        if (reading instanceof Reading.Elongation e) {
            return Normal.logDensity((e.percent() - percent) / error) - Math.log(error);
        }
        if (reading instanceof Reading.Gauge g) {
            double z = (percent - g.edgePercent()) / error;
            return Normal.logProbability(g.drops() ? z : -z);
        }
        throw new AssertionError(reading);
    }

    /** Log of the most that {@link #log} can be. */
    static double logMost(Reading reading) {
        return reading instanceof Reading.Elongation ? Normal.logDensity(0) - Math.log(reading.errorPercent()) : 0;
    }

    /**
     * Probability that a chain of this elongation reads as little as this or less; for a gauge, that it answers as this
     * one did.
     */
    static double asLow(Reading reading, double percent) {
        return reading instanceof Reading.Elongation e
                ? Normal.probability((e.percent() - percent) / reading.errorPercent())
                : Math.exp(log(reading, percent));
    }
}
