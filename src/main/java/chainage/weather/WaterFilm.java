package chainage.weather;

import chainage.weather.Stations.Near;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The water film of a road while a ride goes over it: rain and snow in, evaporation out, run-off above a cap.
 *
 * <p>A film is kept for each station within reach, and each stretch of the way asks its stations by inverse distance.
 * More rain at any station, everything else the same, never makes a ride less wet. Where records say too little, the
 * answer is empty rather than dry: a station must cover half the ride, and half of the six hours before; one that
 * covers only the ride may still call it wet or damp, when no other speaks.
 */
public final class WaterFilm {
    private record Leg(double from, double to, double weight, List<Near> near) {}

    /** Sums over legs. */
    private static final class Votes {
        private double wet;
        private double damp;
        private double weight;

        private void add(Leg leg, Map<StationRecord, Road> roads) {
            double all = 0;
            double wetSum = 0;
            double dampSum = 0;
            double length = leg.to() - leg.from();
            for (Near n : leg.near()) {
                Road road = roads.get(n.station());
                if (road != null) {
                    double w = road.wetMillis(leg.from(), leg.to()) / length;
                    double wd = road.wetOrDampMillis(leg.from(), leg.to()) / length;
                    all += n.weight();
                    wetSum += n.weight() * w;
                    dampSum += n.weight() * (wd - w);
                }
            }
            if (all > 0) {
                weight += leg.weight();
                wet += leg.weight() * wetSum / all;
                damp += leg.weight() * dampSum / all;
            }
        }
    }

    private final Stations stations;
    private final Reach reach;
    private final FilmParameters parameters;

    public WaterFilm(Stations stations, Reach reach, FilmParameters parameters) {
        this.stations = stations;
        this.reach = reach;
        this.parameters = parameters;
    }

    /** True when there are no records at all, so that no road can be asked about. */
    public boolean isEmpty() {
        return stations.isEmpty();
    }

    /**
     * The road under a ride.
     *
     * @param start first instant
     * @param end first instant after it, not before the start
     * @param passages where the rider was, by time; empty when not known, and only stations without a place are heard
     * @return empty where no record speaks for it
     */
    public Optional<RoadWetness> under(Instant start, Instant end, List<Passage> passages) {
        if (stations.isEmpty() || end.isBefore(start)) {
            return Optional.empty();
        }
        // A ride of no length still has a road under it.
        Instant to = end.isAfter(start.plusSeconds(1)) ? end : start.plusSeconds(1);
        List<Leg> legs = legs(start, to, passages);
        Place ridden = passages.isEmpty() ? Place.UNKNOWN : passages.get(0).place();
        Map<StationRecord, Road> all = new HashMap<>();
        Map<StationRecord, Double> weights = new HashMap<>();
        for (Leg leg : legs) {
            for (Near n : leg.near()) {
                weights.merge(n.station(), leg.weight() * n.weight(), Double::sum);
                all.computeIfAbsent(n.station(), s -> new Road(s, ridden, start, to, reach, parameters));
            }
        }
        all.values().removeIf(r -> !r.knowsTheRide());
        Map<StationRecord, Road> sure = new HashMap<>(all);
        sure.values().removeIf(r -> !r.knowsWhatWasBefore());
        double total = legs.stream().mapToDouble(Leg::weight).sum();
        Votes votes = count(legs, sure);
        Map<StationRecord, Road> heard = sure;
        if (votes.weight * 2 < total || votes.weight == 0) {
            votes = count(legs, all);
            heard = all;
            if (votes.weight * 2 < total || votes.wet + votes.damp == 0) {
                return Optional.empty();
            }
        }
        double wet = Math.min(1, votes.wet / votes.weight);
        double damp = Math.max(0, Math.min(1 - wet, votes.damp / votes.weight));
        StationRecord first = best(heard, weights);
        Road road = heard.getOrDefault(first, new Road(first, ridden, start, to, reach, parameters));
        return Optional.of(new RoadWetness(
                wet,
                damp,
                Math.max(0, 1 - wet - damp),
                road.beforeMm(),
                road.duringMm(),
                Math.min(1, votes.weight / total),
                reason(first, road, heard, legs)));
    }

    private static Votes count(List<Leg> legs, Map<StationRecord, Road> roads) {
        Votes votes = new Votes();
        legs.forEach(leg -> votes.add(leg, roads));
        return votes;
    }

    private static StationRecord best(Map<StationRecord, Road> heard, Map<StationRecord, Double> weights) {
        StationRecord best = null;
        for (StationRecord s : heard.keySet()) {
            double difference = best == null ? 1 : weights.getOrDefault(s, 0.0) - weights.getOrDefault(best, 0.0);
            if (best == null || difference > 0 || (difference == 0 && s.name().compareTo(best.name()) < 0)) {
                best = s;
            }
        }
        if (best == null) {
            throw new AssertionError("no station heard");
        }
        return best;
    }

    /** The way between passages, by metres; by time where none moved. Without passages the whole ride is one leg. */
    private List<Leg> legs(Instant start, Instant end, List<Passage> passages) {
        List<Leg> legs = new ArrayList<>();
        if (passages.size() < 2) {
            Place place = passages.isEmpty() ? Place.UNKNOWN : passages.get(0).place();
            legs.add(leg(start.toEpochMilli(), end.toEpochMilli(), 1, place));
            return legs;
        }
        boolean moved =
                passages.get(passages.size() - 1).metres() > passages.get(0).metres();
        for (int i = 1; i < passages.size(); i++) {
            Passage a = passages.get(i - 1);
            Passage b = passages.get(i);
            long from = Math.max(a.at().toEpochMilli(), start.toEpochMilli());
            long to = Math.min(b.at().toEpochMilli(), end.toEpochMilli());
            double weight = moved ? Math.max(0, b.metres() - a.metres()) : (double) (to - from);
            if (to > from && weight > 0) {
                legs.add(leg(from, to, weight, a.place()));
            }
        }
        if (legs.isEmpty()) {
            legs.add(leg(
                    start.toEpochMilli(), end.toEpochMilli(), 1, passages.get(0).place()));
        }
        return legs;
    }

    private Leg leg(long from, long to, double weight, Place place) {
        // Milliseconds since 1970 are exact in a double.
        return new Leg((double) from, (double) to, weight, stations.near(place, reach));
    }

    private static FilmReason reason(StationRecord station, Road road, Map<StationRecord, Road> heard, List<Leg> legs) {
        double metres = legs.stream()
                .flatMap(l -> l.near().stream())
                .filter(n -> n.station() == station)
                .mapToDouble(Near::metres)
                .min()
                .orElse(Double.NaN);
        return new FilmReason(
                road.beforeMm(),
                road.duringMm(),
                road.earlierMm(),
                road.hoursSinceRain(),
                road.snow(),
                road.judged(),
                road.frozenAtStart(),
                road.knowsWhatWasBefore(),
                shown(station),
                metres,
                heard.size() - 1,
                road.frost()
                        ? ""
                        : heard.entrySet().stream()
                                .filter(e -> e.getValue().frost())
                                .map(e -> shown(e.getKey()))
                                .min(Comparator.naturalOrder())
                                .orElse(""));
    }

    private static String shown(StationRecord station) {
        return station.name().isEmpty() ? "" : BadLine.plain(station.name());
    }
}
