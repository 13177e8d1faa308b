package chainage.condition;

import chainage.condition.RoadWords.Finding;
import chainage.condition.RoadWords.Where;
import chainage.ledger.Flags;
import chainage.ledger.Grit;
import chainage.ledger.Ledger;
import chainage.ledger.Moisture;
import chainage.ride.FiledRide;
import chainage.ride.Ride;
import chainage.ride.Ride.WeatherReport;
import chainage.weather.Passage;
import chainage.weather.Place;
import chainage.weather.WaterFilm;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Weighs the evidence for moisture and grit apart, strongest first: the rider's flag, the weather records, the file's
 * own current weather messages, its words, its kind, and else dry and clean. What is overruled is kept, so that a
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

    private static final Reason NO_OTHER = new Reason.Nothing();
    private static final Reason YOUR_TAG = new Reason.Tag();
    private static final Said<Wetness> TAKEN_AS_DRY = new Said<>(Evidence.NOTHING, Wetness.DRY, NO_OTHER);
    private static final Said<Grit> TAKEN_AS_CLEAN = new Said<>(Evidence.NOTHING, Grit.CLEAN, NO_OTHER);

    private static final Said<Grit> SALTED = new Said<>(Evidence.RECORDS, Grit.GRITTY, new Reason.SaltedByRule());

    private final Ledger ledger;
    private final RoadWords words;
    private final WaterFilm film;
    private final boolean salted;

    /**
     * What to ask.
     *
     * @param words the list of words, with the rider's own
     * @param film the weather records, as water on the road
     * @param salted the rider's rule: whether roads are salted when there is snow or ice on them
     */
    public Conditions(Ledger ledger, RoadWords words, WaterFilm film, boolean salted) {
        this.ledger = ledger;
        this.words = words;
        this.film = film;
        this.salted = salted;
    }

    /**
     * The road under one outing.
     *
     * @param recordings of it, the counted one first, then its twins: each may speak for the outing
     */
    public Condition of(List<FiledRide> recordings) {
        List<Finding> spoken = words.findings(texts(recordings));
        List<Said<Wetness>> wetness = wetness(recordings, spoken);
        return new Condition(wetness, grit(recordings, spoken, wetness));
    }

    private List<Said<Wetness>> wetness(List<FiledRide> recordings, List<Finding> spoken) {
        List<Said<Wetness>> said = new ArrayList<>();
        recordings.stream()
                .map(r -> ledger.flags(r.id()).orElse(Flags.NONE))
                .filter(f -> f.moisture() != null)
                .findFirst()
                .ifPresent(f -> said.add(new Said<>(Evidence.FLAG, Wetness.of(moisture(f), f.share()), YOUR_TAG)));
        Ride ride = recordings.get(0).ride();
        if (ride.activity().indoor()) {
            // The weather outside does not come in.
            said.add(new Said<>(Evidence.SPORT, Wetness.INDOOR, new Reason.Kind(ride.activity())));
            return said;
        }
        recordings.stream()
                .map(r -> records(r.ride()))
                .flatMap(Optional::stream)
                .findFirst()
                .ifPresent(said::add);
        recordings.stream()
                .map(r -> weatherInTheFile(r.ride()))
                .flatMap(Optional::stream)
                .findFirst()
                .ifPresent(said::add);
        RoadWords.moisture(spoken)
                .ifPresent(f -> f.meaning()
                        .moisture()
                        .ifPresent(m -> said.add(new Said<>(Evidence.WORDS, Wetness.of(m, 1), new Reason.Word(f)))));
        return said.isEmpty() ? List.of(TAKEN_AS_DRY) : said;
    }

    private static Moisture moisture(Flags flags) {
        return flags.moisture() == null ? Moisture.DRY : flags.moisture();
    }

    private List<Said<Grit>> grit(List<FiledRide> recordings, List<Finding> spoken, List<Said<Wetness>> moistures) {
        Wetness wetness = moistures.get(0).value();
        List<Said<Grit>> said = new ArrayList<>();
        for (FiledRide r : recordings) {
            Grit flagged = ledger.flags(r.id()).orElse(Flags.NONE).grit();
            if (flagged != null) {
                said.add(new Said<>(Evidence.FLAG, flagged, YOUR_TAG));
                break;
            }
        }
        if (salted && !wetness.indoor() && moistures.stream().anyMatch(m -> frost(m.why()))) {
            said.add(SALTED);
        }
        if (!wetness.indoor()) {
            RoadWords.grit(spoken)
                    .ifPresent(f -> f.meaning()
                            .grit(mostlyWet(wetness))
                            .ifPresent(g -> said.add(new Said<>(Evidence.WORDS, g, new Reason.Word(f)))));
        }
        if (!wetness.indoor()) {
            recordings.stream()
                    .map(r -> r.ride().activity())
                    .filter(Ride.Activity::offRoad)
                    .findFirst()
                    .ifPresent(a -> said.add(new Said<>(
                            Evidence.SPORT, mostlyWet(wetness) ? Grit.GRITTY : Grit.DUSTY, new Reason.Kind(a))));
        }
        return said.isEmpty() ? List.of(TAKEN_AS_CLEAN) : said;
    }

    /** Whether weather records know of snow or ice on the road. */
    private static boolean frost(Reason why) {
        return why instanceof Reason.Film f && f.film().frost();
    }

    /** Wet for most of the way, loose ground is mud; dry, it is dust. Our guess. */
    private static boolean mostlyWet(Wetness wetness) {
        return wetness.wet() >= 0.5;
    }

    /** What the recordings' titles and names say; a twin speaks as well as the ride that is counted. */
    private List<RoadWords.Source> texts(List<FiledRide> recordings) {
        List<RoadWords.Source> texts = new ArrayList<>();
        for (FiledRide r : recordings) {
            Ride.Labels labels = r.ride().labels();
            text(texts, Where.TITLE, labels.title());
            text(texts, Where.NOTES, labels.notes());
            text(texts, Where.KEYWORDS, labels.keywords());
            ledger.told(r.id()).ifPresent(t -> {
                told(texts, Where.TABLE_TITLE, t.title(), labels.title());
                told(texts, Where.TABLE_NOTES, t.notes(), labels.notes());
            });
            for (String path : r.paths()) {
                int slash = path.lastIndexOf('/');
                text(texts, Where.FILE_NAME, path.substring(slash + 1));
                text(texts, Where.FOLDER, nearestFolder(path.substring(0, Math.max(0, slash))));
            }
        }
        return texts;
    }

    /** What a table says beside the file; most repeat what the file has. */
    private static void told(List<RoadWords.Source> texts, Where where, @Nullable String text, String inFile) {
        if (text != null && !text.equals(inFile)) {
            text(texts, where, text);
        }
    }

    private static void text(List<RoadWords.Source> texts, Where where, String text) {
        if (!text.isBlank()) {
            texts.add(new RoadWords.Source(where, text));
        }
    }

    /** Only the folder that the file lies in: those above hold the rider's whole life, "dry-goods" and all. */
    private static String nearestFolder(String folders) {
        return folders.substring(folders.lastIndexOf('/') + 1);
    }

    /** A ride's coarse track, as the water film asks for it. */
    public static List<Passage> passages(Ride ride) {
        return ride.trace().stream()
                .map(w -> new Passage(w.at(), new Place(w.latitude(), w.longitude()), w.metres()))
                .toList();
    }

    /** The water film under the ride, by the weather records within reach. */
    private Optional<Said<Wetness>> records(Ride ride) {
        if (film.isEmpty()) {
            return Optional.empty();
        }
        return film.under(ride.start(), ride.end(), passages(ride))
                .map(road -> new Said<>(
                        Evidence.RECORDS,
                        new Wetness(road.wetShare(), road.dampShare(), false),
                        new Reason.Film(road.reason())));
    }

    /** Each current report holds until the next one; the first one also for the time before it. */
    private static Optional<Said<Wetness>> weatherInTheFile(Ride ride) {
        List<WeatherReport> current = ride.weather().stream()
                .filter(w -> w.current() && !w.condition().isEmpty())
                .toList();
        if (current.isEmpty()) {
            return Optional.empty();
        }
        List<String> words =
                current.stream().map(WeatherReport::condition).distinct().toList();
        Wetness wetness = new Wetness(share(ride, current, WET), share(ride, current, DAMP), false);
        return Optional.of(new Said<>(Evidence.FILE, wetness, new Reason.Weather(words)));
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
