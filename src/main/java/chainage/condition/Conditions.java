package chainage.condition;

import chainage.ledger.Flags;
import chainage.ledger.Grit;
import chainage.ledger.Ledger;
import chainage.ledger.Moisture;
import chainage.ride.FiledRide;
import chainage.ride.Ride;
import chainage.ride.Ride.WeatherReport;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * Weighs the evidence, strongest first, for moisture and grit apart: the rider's flag, the file's own current weather
 * messages, its sub-sport, and else dry and clean.
 */
public final class Conditions {
    /** FIT weather words with water falling or lying; fog and cloud leave the road as it was. */
    private static final Set<String> WET = Set.of(
            "rain",
            "light_rain",
            "heavy_rain",
            "snow",
            "light_snow",
            "heavy_snow",
            "light_rain_snow",
            "heavy_rain_snow",
            "wintry_mix",
            "hail",
            "thunderstorms",
            "scattered_showers",
            "scattered_thunderstorms",
            "unknown_precipitation");

    /** Sub-sports of the FIT profile that leave the tarmac. */
    private static final Set<String> LOOSE =
            Set.of("gravel_cycling", "mountain", "cyclocross", "downhill", "e_bike_mountain", "mixed_surface", "bmx");

    /** The source of what is only assumed. */
    static final String NOTHING = "nothing says otherwise";

    private record Wetness(Moisture moisture, double share, String from) {}

    private Conditions() {}

    /**
     * The road under one outing.
     *
     * @param recordings of it, the counted one first, then its twins: a flag on any of them speaks
     */
    public static Condition of(Ledger ledger, List<FiledRide> recordings) {
        Wetness wetness = flaggedMoisture(ledger, recordings)
                .or(() -> weather(recordings))
                .orElseGet(() -> assumedMoisture(recordings.get(0).ride()));
        Optional<Grit> flagged = recordings.stream()
                .map(r -> ledger.flags(r.id()).map(Flags::grit))
                .flatMap(Optional::stream)
                .findFirst();
        if (flagged.isPresent()) {
            return new Condition(wetness.moisture(), wetness.share(), flagged.get(), wetness.from(), "rider's flag");
        }
        Ride ride = recordings.get(0).ride();
        String subSport = ride.activity().subSport();
        boolean loose = LOOSE.contains(subSport) && wetness.moisture() != Moisture.INDOOR;
        // Wet for most of the way, loose ground is mud; dry, it is dust. Our guess.
        Grit grit = !loose
                ? Grit.CLEAN
                : wetness.moisture() == Moisture.WET && wetness.share() >= 0.5 ? Grit.GRITTY : Grit.DUSTY;
        return new Condition(
                wetness.moisture(), wetness.share(), grit, wetness.from(), loose ? "sub-sport " + subSport : NOTHING);
    }

    private static Optional<Wetness> flaggedMoisture(Ledger ledger, List<FiledRide> recordings) {
        for (FiledRide r : recordings) {
            Optional<Flags> flags = ledger.flags(r.id());
            if (flags.isPresent() && flags.get().moisture() != null) {
                return Optional.of(
                        new Wetness(flags.get().moisture(), flags.get().share(), "rider's flag"));
            }
        }
        return Optional.empty();
    }

    private static Wetness assumedMoisture(Ride ride) {
        if (ride.activity().indoor()) {
            String subSport = ride.activity().subSport();
            return new Wetness(Moisture.INDOOR, 1, subSport.isEmpty() ? "indoor" : "sub-sport " + subSport);
        }
        return new Wetness(Moisture.DRY, 1, NOTHING);
    }

    /** Each current report holds until the next one; the first one also for the time before it. */
    private static Optional<Wetness> weather(List<FiledRide> recordings) {
        for (FiledRide r : recordings) {
            Ride ride = r.ride();
            List<WeatherReport> current = ride.weather().stream()
                    .filter(w -> w.current() && !w.condition().isEmpty())
                    .toList();
            if (current.isEmpty() || ride.activity().indoor()) {
                continue;
            }
            double share = wetShare(ride, current);
            List<String> words = new ArrayList<>();
            current.stream()
                    .map(w -> w.condition().replace('_', ' '))
                    .filter(w -> !words.contains(w))
                    .forEach(words::add);
            String from = "weather in the file: " + String.join(", ", words);
            return Optional.of(share > 0 ? new Wetness(Moisture.WET, share, from) : new Wetness(Moisture.DRY, 1, from));
        }
        return Optional.empty();
    }

    private static double wetShare(Ride ride, List<WeatherReport> current) {
        double wet = 0;
        double all = 0;
        for (int i = 0; i < current.size(); i++) {
            Instant from = i == 0 ? ride.start() : clamp(current.get(i).at(), ride);
            Instant to = i + 1 < current.size() ? clamp(current.get(i + 1).at(), ride) : ride.end();
            double seconds = Math.max(0, Duration.between(from, to).toMillis() / 1000.0);
            all += seconds;
            if (WET.contains(current.get(i).condition())) {
                wet += seconds;
            }
        }
        if (all == 0) {
            return WET.contains(current.get(current.size() - 1).condition()) ? 1 : 0;
        }
        return wet / all;
    }

    private static Instant clamp(Instant t, Ride ride) {
        if (t.isBefore(ride.start())) {
            return ride.start();
        }
        return t.isAfter(ride.end()) ? ride.end() : t;
    }
}
