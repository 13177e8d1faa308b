package chainage.cost;

import java.util.Collections;
import java.util.Map;
import java.util.TreeMap;

/**
 * What some riding uses up.
 *
 * @param treatments how many; parts of one count
 * @param millilitres of the product; NaN when nothing says what a treatment takes
 * @param minutes of work; NaN when nothing says how long a treatment takes
 * @param chains share of a chain's life used up, by chain
 * @param bikes the same by the bike it was ridden on: what wears that bike's sprockets
 */
public record Usage(
        double treatments, double millilitres, double minutes, Map<String, Double> chains, Map<String, Double> bikes) {
    public Usage {
        chains = Collections.unmodifiableMap(new TreeMap<>(chains));
        bikes = Collections.unmodifiableMap(new TreeMap<>(bikes));
    }

    /** The same riding so many times. */
    public Usage times(double factor) {
        return new Usage(
                treatments * factor, millilitres * factor, minutes * factor, each(chains, factor), each(bikes, factor));
    }

    private static Map<String, Double> each(Map<String, Double> shares, double factor) {
        Map<String, Double> scaled = new TreeMap<>();
        shares.forEach((name, share) -> scaled.put(name, share * factor));
        return scaled;
    }
}
