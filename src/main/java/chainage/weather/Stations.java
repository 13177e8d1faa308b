package chainage.weather;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Observations by station and time. Immutable, so it may be shared; building it sorts once, a look-up is a binary
 * search in each station within reach. It may hold all there is or only the time around some rides
 * ({@link WaterFilm#needed}).
 *
 * <p>A station without a place holds wherever the rider rides, as if it stood at the end of the reach.
 */
public final class Stations {
    /** As many neighbours as a rider would look out of windows to ask. Our guess. */
    private static final int MOST = 4;

    /** Positions are rounded to about this; nearer stations are no better. */
    private static final double NEAREST_METRES = 1000;

    /**
     * A station and what its word is worth.
     *
     * @param metres how far off; NaN when its place is not known
     * @param weight by inverse distance
     */
    record Near(StationRecord station, double metres, double weight) {}

    private record Key(String station, Place place) {}

    private final List<StationRecord> records;

    private Stations(List<StationRecord> records) {
        this.records = records;
    }

    /** Takes observations in any order; of two with the same station, place and instant the later one counts. */
    public static Stations of(Iterable<Observation> observations) {
        Map<Key, List<Observation>> byStation = new LinkedHashMap<>();
        for (Observation o : observations) {
            byStation
                    .computeIfAbsent(new Key(o.station(), o.place()), k -> new ArrayList<>())
                    .add(o);
        }
        List<StationRecord> records = new ArrayList<>();
        for (List<Observation> all : byStation.values()) {
            all.sort(Comparator.comparing(Observation::at));
            List<Observation> distinct = new ArrayList<>(all.size());
            for (Observation o : all) {
                int end = distinct.size() - 1;
                if (end >= 0 && distinct.get(end).at().equals(o.at())) {
                    distinct.set(end, o);
                } else {
                    distinct.add(o);
                }
            }
            records.add(new StationRecord(distinct));
        }
        records.sort(Comparator.comparing(StationRecord::name)
                .thenComparingDouble(r -> r.place().latitude())
                .thenComparingDouble(r -> r.place().longitude()));
        return new Stations(records);
    }

    public boolean isEmpty() {
        return records.isEmpty();
    }

    /** The stations that speak for a place, nearest first, at most four; an unknown place hears only those without one. */
    List<Near> near(Place place, Reach reach) {
        List<Near> found = new ArrayList<>();
        for (StationRecord r : records) {
            if (!r.place().known()) {
                found.add(new Near(r, Double.NaN, 1 / reach.metres()));
            } else if (place.known()) {
                double metres = r.place().metresTo(place);
                if (metres <= reach.metres()) {
                    found.add(new Near(r, metres, 1 / Math.max(metres, NEAREST_METRES)));
                }
            }
        }
        found.sort(Comparator.comparingDouble(Near::weight).reversed());
        return found.subList(0, Math.min(MOST, found.size()));
    }
}
