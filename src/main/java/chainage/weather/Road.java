package chainage.weather;

import chainage.weather.StationRecord.Piece;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/**
 * The film at one station over the time of one ride, and what fell before.
 *
 * <p>The look-back starts dry, so that the first hours of it hardly matter.
 */
final class Road {
    /** What a rider remembers of the weather before a ride. */
    static final Duration BEFORE = Duration.ofHours(6);

    private record Stretch(double from, double to, double fromMm, double toMm) {}

    private final FilmParameters parameters;
    private final Place place;
    private final List<Stretch> stretches = new ArrayList<>();
    private final long start;
    private final long end;

    private double beforeMm;
    private double duringMm;
    private double earlierMm;
    private long lastRain;
    private double frozenAtStartMm;
    private boolean snow;
    private boolean judged;
    private double knownBeforeHours;
    private double knownDuringHours;

    /** @param ridden where the ride was, for a station whose place is not known */
    Road(StationRecord station, Place ridden, Instant from, Instant to, Reach reach, FilmParameters parameters) {
        this.parameters = parameters;
        start = from.toEpochMilli();
        end = to.toEpochMilli();
        place = station.place().known() ? station.place() : ridden;
        Film film = new Film(parameters);
        long gap = reach.gap().toMillis();
        long recent = from.minus(BEFORE).toEpochMilli();
        for (Piece p : station.between(from.minus(parameters.lookBack()), from, gap, parameters)) {
            move(film, p, (a, b, c, d) -> {});
            double inside = p.to() <= recent ? 0 : Math.min(1, (p.to() - recent) / (double) (p.to() - p.from()));
            beforeMm += inside * p.millimetres();
            earlierMm += (1 - inside) * p.millimetres();
            knownBeforeHours += p.known() ? inside * p.hours() : 0;
            fell(p);
        }
        frozenAtStartMm = film.frozenMm();
        for (Piece p : station.between(from, to, gap, parameters)) {
            move(
                    film,
                    p,
                    (a, b, c, d) ->
                            stretches.add(new Stretch(p.from() + a * 3_600_000, p.from() + b * 3_600_000, c, d)));
            duringMm += p.millimetres();
            knownDuringHours += p.known() ? p.hours() : 0;
            fell(p);
        }
    }

    private void move(Film film, Piece p, Film.Listener listener) {
        Instant middle = Instant.ofEpochMilli(p.from() + (p.to() - p.from()) / 2);
        double sun = Sun.watts(middle, place, p.air().cloud());
        film.step(
                p.hours(),
                p.millimetresPerHour(),
                p.frozen(),
                p.air().celsius(),
                parameters.evaporationMmPerHour(p.air(), sun),
                listener);
    }

    private void fell(Piece p) {
        if (p.millimetresPerHour() > 0) {
            lastRain = p.to();
            snow |= p.frozen() || p.air().celsius() < 0;
            judged |= !p.measured();
        }
    }

    double beforeMm() {
        return beforeMm;
    }

    double duringMm() {
        return duringMm;
    }

    /** Fallen within the look-back, but more than six hours before. */
    double earlierMm() {
        return earlierMm;
    }

    /** Hours from the last rain to the start; only where any fell before. */
    double hoursSinceRain() {
        return (start - lastRain) / 3_600_000.0;
    }

    /** Whether snow or ice lay at the start. */
    boolean frozenAtStart() {
        return frozenAtStartMm > 0;
    }

    /** Whether there was snow or ice, before or during the ride. */
    boolean frost() {
        return snow || frozenAtStart();
    }

    /** True when some of it fell as snow, or on frozen ground. */
    boolean snow() {
        return snow;
    }

    /** True when some of it was not measured, only judged from words such as light rain. */
    boolean judged() {
        return judged;
    }

    /** The record covers at least half the ride. */
    boolean knowsTheRide() {
        return knownDuringHours * 2 * 3_600_000 >= end - start;
    }

    /** The record covers at least half of the six hours before: without, it cannot call a road dry. */
    boolean knowsWhatWasBefore() {
        return knownBeforeHours * 2 >= BEFORE.toHours();
    }

    /**
     * How long the film was at least so thick, in milliseconds of [from, to).
     *
     * @param mm more than 0, so that a dry road never counts
     */
    private double atLeast(double mm, double from, double to) {
        double sum = 0;
        for (Stretch s : stretches) {
            double a = Math.max(s.from(), from);
            double b = Math.min(s.to(), to);
            if (b <= a) {
                continue;
            }
            double slope = (s.toMm() - s.fromMm()) / (s.to() - s.from());
            double first = s.fromMm() + slope * (a - s.from());
            double last = s.fromMm() + slope * (b - s.from());
            if (first >= mm && last >= mm) {
                sum += b - a;
            } else if (first >= mm || last >= mm) {
                double high = Math.max(first, last);
                double low = Math.min(first, last);
                sum += (b - a) * (high - mm) / (high - low);
            }
        }
        return sum;
    }

    double wetMillis(double from, double to) {
        return atLeast(parameters.wetMm(), from, to);
    }

    double wetOrDampMillis(double from, double to) {
        return atLeast(Math.max(parameters.dampMm(), Double.MIN_NORMAL), from, to);
    }
}
