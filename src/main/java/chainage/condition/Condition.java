package chainage.condition;

import chainage.ledger.Grit;
import chainage.ledger.Moisture;

/**
 * The road under one ride.
 *
 * @param moisture the wettest that any of the ride was
 * @param share of the ride's metres that it holds for, 0 to 1; the rest was dry
 * @param grit what the road threw up
 * @param moistureFrom where the moisture is known from, in words
 * @param gritFrom where the grit is known from, in words
 */
public record Condition(Moisture moisture, double share, Grit grit, String moistureFrom, String gritFrom) {
    public Condition {
        if (!(share >= 0 && share <= 1)) {
            throw new IllegalArgumentException("share " + share);
        }
    }

    /** Share of the ride on a wet surface, 0 to 1. */
    public double wetShare() {
        return moisture == Moisture.WET ? share : 0;
    }

    /** Both sources in one phrase; where only one speaks, only that one. */
    public String from() {
        return moistureFrom.equals(gritFrom) || gritFrom.equals(Conditions.NOTHING)
                ? moistureFrom
                : moistureFrom.equals(Conditions.NOTHING) ? gritFrom : moistureFrom + "; " + gritFrom;
    }
}
