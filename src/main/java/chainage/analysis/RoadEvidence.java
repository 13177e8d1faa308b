package chainage.analysis;

import chainage.condition.Conditions;
import chainage.exposure.Factors;
import chainage.ledger.Entry;
import chainage.ledger.Ledger;
import chainage.weather.Air;
import chainage.weather.FilmParameters;
import chainage.weather.Observation;
import chainage.weather.Reach;
import chainage.weather.Stations;
import chainage.weather.WaterFilm;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** Gathers what speaks for the roads: the ledger's flags, words and weather records, and the factors of the film. */
public final class RoadEvidence {
    private RoadEvidence() {}

    static Conditions of(Ledger ledger, Map<Long, List<Observation>> weather, Tables tables, Factors factors) {
        List<Observation> inForce = new ArrayList<>();
        if (!weather.isEmpty()) {
            ledger.inForce().stream()
                    .map(Entry::number)
                    .map(n -> weather.getOrDefault(n, List.of()))
                    .forEach(inForce::addAll);
        }
        return new Conditions(
                ledger,
                tables.words(ledger),
                new WaterFilm(Stations.of(inForce), reach(factors), film(factors)),
                factors.value("road.salted") >= 0.5);
    }

    /** How far a weather record speaks. */
    public static Reach reach(Factors f) {
        return new Reach(f.value("road.reach") * 1000, hours(f.value("road.gap")));
    }

    /** What the water on a road does. */
    public static FilmParameters film(Factors f) {
        double cap = f.value("road.cap");
        // Set one by one, the three may cross; the film then has no room between them.
        double wet = Math.min(cap, f.value("road.wet"));
        return new FilmParameters(
                cap,
                f.value("road.frozen-cap"),
                Math.min(1, f.value("road.sun")),
                f.value("road.melt"),
                wet,
                Math.min(wet, f.value("road.damp")),
                f.value("road.trace"),
                new Air(
                        f.value("road.celsius"),
                        Math.min(100, f.value("road.humidity")),
                        f.value("road.wind"),
                        Math.min(1, f.value("road.cloud"))),
                f.value("road.least-wind"),
                hours(f.value("road.look-back")));
    }

    private static Duration hours(double hours) {
        return Duration.ofSeconds(Math.round(hours * 3600));
    }
}
