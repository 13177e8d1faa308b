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
 * Weighs the evidence for moisture and grit apart, strongest first: the rider's flag, the weather records, the file's
 * own current weather messages, its words, its sub-sport, and else dry and clean. What is overruled is kept, so that a
 * ride can say why.
 */
public final class Conditions {
    /** FIT weather words with water falling or lying; showers nearby are taken to have met the ride, our guess. */
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

    /** FIT weather words of moist air that settles; our guess. */
    private static final Set<String> DAMP = Set.of("fog");

    /** Sub-sports of the FIT profile that leave the tarmac. */
    private static final Set<String> LOOSE =
            Set.of("gravel_cycling", "mountain", "cyclocross", "downhill", "e_bike_mountain", "mixed_surface", "bmx");

    private static final Said<Wetness> TAKEN_AS_DRY =
            new Said<>(Evidence.NOTHING, Wetness.DRY, "nothing says otherwise");
    private static final Said<Grit> TAKEN_AS_CLEAN = new Said<>(Evidence.NOTHING, Grit.CLEAN, "nothing says otherwise");

    private final Ledger ledger;

    public Conditions(Ledger ledger) {
        this.ledger = ledger;
    }

    /**
     * The road under one outing.
     *
     * @param recordings of it, the counted one first, then its twins: each may speak for the outing
     */
    public Condition of(List<FiledRide> recordings) {
        List<Said<Wetness>> wetness = wetness(recordings);
        return new Condition(wetness, grit(recordings, wetness.get(0).value()));
    }

    private List<Said<Wetness>> wetness(List<FiledRide> recordings) {
        List<Said<Wetness>> said = new ArrayList<>();
        recordings.stream()
                .map(r -> ledger.flags(r.id()).orElse(Flags.NONE))
                .filter(f -> f.moisture() != null)
                .findFirst()
                .ifPresent(f -> said.add(new Said<>(Evidence.FLAG, Wetness.of(moisture(f), f.share()), "your flag")));
        Ride ride = recordings.get(0).ride();
        if (ride.activity().indoor()) {
            // The weather outside does not come in.
            String subSport = ride.activity().subSport();
            said.add(new Said<>(
                    Evidence.SPORT, Wetness.INDOOR, subSport.isEmpty() ? "indoor" : "sub-sport " + subSport));
            return said;
        }
        recordings.stream()
                .map(r -> weatherInTheFile(r.ride()))
                .flatMap(Optional::stream)
                .findFirst()
                .ifPresent(said::add);
        return said.isEmpty() ? List.of(TAKEN_AS_DRY) : said;
    }

    private static Moisture moisture(Flags flags) {
        return flags.moisture() == null ? Moisture.DRY : flags.moisture();
    }

    private List<Said<Grit>> grit(List<FiledRide> recordings, Wetness wetness) {
        List<Said<Grit>> said = new ArrayList<>();
        for (FiledRide r : recordings) {
            Grit flagged = ledger.flags(r.id()).orElse(Flags.NONE).grit();
            if (flagged != null) {
                said.add(new Said<>(Evidence.FLAG, flagged, "your flag"));
                break;
            }
        }
        String subSport = recordings.get(0).ride().activity().subSport();
        if (LOOSE.contains(subSport) && !wetness.indoor()) {
            said.add(new Said<>(Evidence.SPORT, onLooseGround(wetness), "sub-sport " + subSport));
        }
        return said.isEmpty() ? List.of(TAKEN_AS_CLEAN) : said;
    }

    /** Wet for most of the way, loose ground is mud; dry, it is dust. Our guess. */
    private static Grit onLooseGround(Wetness wetness) {
        return wetness.wet() >= 0.5 ? Grit.GRITTY : Grit.DUSTY;
    }

    /** Each current report holds until the next one; the first one also for the time before it. */
    private static Optional<Said<Wetness>> weatherInTheFile(Ride ride) {
        List<WeatherReport> current = ride.weather().stream()
                .filter(w -> w.current() && !w.condition().isEmpty())
                .toList();
        if (current.isEmpty()) {
            return Optional.empty();
        }
        List<String> words = current.stream()
                .map(w -> w.condition().replace('_', ' '))
                .distinct()
                .toList();
        Wetness wetness = new Wetness(share(ride, current, WET), share(ride, current, DAMP), false);
        return Optional.of(new Said<>(Evidence.FILE, wetness, "weather in the file: " + String.join(", ", words)));
    }

    /** Share of the ride's time under reports with one of these words. */
    private static double share(Ride ride, List<WeatherReport> current, Set<String> words) {
        double those = 0;
        double all = 0;
        for (int i = 0; i < current.size(); i++) {
            Instant from = i == 0 ? ride.start() : clamp(current.get(i).at(), ride);
            Instant to = i + 1 < current.size() ? clamp(current.get(i + 1).at(), ride) : ride.end();
            double seconds = Math.max(0, Duration.between(from, to).toMillis() / 1000.0);
            all += seconds;
            if (words.contains(current.get(i).condition())) {
                those += seconds;
            }
        }
        if (all == 0) {
            return words.contains(current.get(current.size() - 1).condition()) ? 1 : 0;
        }
        return those / all;
    }

    private static Instant clamp(Instant t, Ride ride) {
        if (t.isBefore(ride.start())) {
            return ride.start();
        }
        return t.isAfter(ride.end()) ? ride.end() : t;
    }
}
