package chainage.analysis;

import chainage.attribution.AttributedRide;
import chainage.condition.Conditions;
import chainage.exposure.CountedRide;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ride.Ride;
import chainage.weather.Observation;
import chainage.weather.Passage;
import chainage.weather.Place;
import chainage.weather.Reach;
import chainage.weather.Stations;
import chainage.weather.WaterFilm;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * How far some weather records reach: whether they speak for any ride, and if not, how far off they are.
 *
 * @param rides that count and were ridden outdoors
 * @param reached how many of them these records alone speak for
 * @param nearest the one that passes nearest to a station, of those in the records' time; null where none does, or
 *     nothing is known of places
 * @param metres how near it passes; NaN where there is none
 * @param swapped a station with latitude and longitude changed over, where that lies within reach of a ride though no
 *     record speaks for any; null else
 * @param swappedMetres how near a ride passes there; NaN where there is none
 */
public record WeatherReach(
        int rides,
        int reached,
        @Nullable AttributedRide nearest,
        double metres,
        @Nullable Place swapped,
        double swappedMetres) {
    private record Near(
            @Nullable AttributedRide ride, @Nullable Place place, double metres) {}

    /**
     * Asks the rides.
     *
     * @param analysis with the records
     * @param weather observations by the entry that brought them, as the snapshot has them
     * @param entries numbers of the entries that brought the records
     */
    public static WeatherReach of(Analysis analysis, Map<Long, List<Observation>> weather, Set<Long> entries) {
        Reach reach = RoadEvidence.reach(analysis.factors());
        List<Observation> brought = new ArrayList<>();
        Set<Place> places = new LinkedHashSet<>();
        List<Event.WeatherAdded> added = new ArrayList<>();
        for (Entry e : analysis.entries()) {
            if (entries.contains(e.number()) && e.event() instanceof Event.WeatherAdded w) {
                brought.addAll(weather.getOrDefault(e.number(), List.of()));
                places.add(Place.of(w.place() == null ? "" : w.place()));
                added.add(w);
            }
        }
        brought.forEach(o -> places.add(o.place()));
        places.remove(Place.UNKNOWN);
        WaterFilm film = new WaterFilm(Stations.of(brought), reach, RoadEvidence.film(analysis.factors()));
        List<AttributedRide> inTime = new ArrayList<>();
        int rides = 0;
        int reached = 0;
        for (CountedRide c : analysis.exposures().counted().values()) {
            Ride ride = c.ride().filed().ride();
            if (ride.activity().indoor()) {
                continue;
            }
            rides++;
            reached += film.under(ride.start(), ride.end(), Conditions.passages(ride))
                            .isPresent()
                    ? 1
                    : 0;
            if (added.stream()
                    .anyMatch(w -> !ride.start().isAfter(w.to().plus(reach.gap()))
                            && !ride.end().isBefore(w.from().minus(reach.gap())))) {
                inTime.add(c.ride());
            }
        }
        Near nearest = nearest(inTime, places);
        Near swapped = reached > 0
                ? new Near(null, null, Double.NaN)
                : nearest(
                        inTime,
                        places.stream()
                                .filter(p -> Math.abs(p.longitude()) <= 90)
                                .map(p -> new Place(/* latitude= */ p.longitude(), /* longitude= */ p.latitude()))
                                .toList());
        boolean fits = swapped.metres() <= reach.metres();
        return new WeatherReach(
                rides,
                reached,
                nearest.ride(),
                nearest.metres(),
                fits ? swapped.place() : null,
                fits ? swapped.metres() : Double.NaN);
    }

    private static Near nearest(List<AttributedRide> rides, Iterable<Place> places) {
        Near nearest = new Near(null, null, Double.NaN);
        for (AttributedRide r : rides) {
            for (Passage p : Conditions.passages(r.filed().ride())) {
                for (Place place : places) {
                    double metres = place.metresTo(p.place());
                    if (!(nearest.metres() <= metres)) {
                        nearest = new Near(r, place, metres);
                    }
                }
            }
        }
        return nearest;
    }
}
