package chainage.condition;

import chainage.ledger.Grit;
import chainage.ledger.Moisture;
import java.util.List;

/**
 * The road under one ride, with all that was said of it.
 *
 * @param wetness what the evidence says, strongest first: the first one holds, the others are overruled; never empty
 * @param grits the same for grit; never empty
 */
public record Condition(List<Said<Wetness>> wetness, List<Said<Grit>> grits) {
    public Condition {
        wetness = List.copyOf(wetness);
        grits = List.copyOf(grits);
        if (wetness.isEmpty() || grits.isEmpty()) {
            throw new IllegalArgumentException("no word on wetness or grit");
        }
    }

    /** The wettest that any of the ride was. */
    public Moisture moisture() {
        return wetness.get(0).value().moisture();
    }

    /** What the road threw up. */
    public Grit grit() {
        return grits.get(0).value();
    }

    /** Share of the ride on a wet surface, 0 to 1. */
    public double wetShare() {
        return wetness.get(0).value().wet();
    }

    /** Share of the ride on a damp surface, 0 to 1. */
    public double dampShare() {
        return wetness.get(0).value().damp();
    }

    /** The kind of evidence that the moisture rests on. */
    public Evidence moistureEvidence() {
        return wetness.get(0).evidence();
    }

    /** The kind of evidence that the grit rests on. */
    public Evidence gritEvidence() {
        return grits.get(0).evidence();
    }

    /** What moisture and grit rest on; where only one speaks, or both say the same, only that one. */
    public List<Reason> from() {
        Reason moistureFrom = wetness.get(0).why();
        Reason gritFrom = grits.get(0).why();
        if (moistureFrom.equals(gritFrom) || gritEvidence() == Evidence.NOTHING) {
            return List.of(moistureFrom);
        }
        return moistureEvidence() == Evidence.NOTHING ? List.of(gritFrom) : List.of(moistureFrom, gritFrom);
    }
}
