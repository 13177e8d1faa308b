package chainage.weather;

import java.time.Instant;

/**
 * The rider at a place.
 *
 * @param at instant
 * @param place where; known
 * @param metres ridden up to here, not falling from one passage to the next
 */
public record Passage(Instant at, Place place, double metres) {
    public Passage {
        if (!place.known() || !(metres >= 0)) {
            throw new IllegalArgumentException("passage at " + place + ", " + metres + " m");
        }
    }
}
