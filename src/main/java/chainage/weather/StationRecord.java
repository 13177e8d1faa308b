package chainage.weather;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;

/** All observations of one station, by time, one an instant. */
final class StationRecord {
    /**
     * A stretch of constant weather, [from, to) in milliseconds since 1970.
     *
     * @param measured false where the rate is only judged from what was seen
     * @param air with nothing unknown
     */
    record Piece(
            long from, long to, boolean known, boolean measured, double millimetresPerHour, boolean frozen, Air air) {
        double hours() {
            return (to - from) / 3_600_000.0;
        }

        double millimetres() {
            return millimetresPerHour * hours();
        }
    }

    private final Observation[] observations;
    private final long[] millis;
    /** Milliseconds of the longest amount: how far after an instant its amount may still be stamped. */
    private final long longest;

    /** @param sorted by time, no two at one instant; not empty */
    StationRecord(List<Observation> sorted) {
        observations = sorted.toArray(Observation[]::new);
        millis = sorted.stream().mapToLong(o -> o.at().toEpochMilli()).toArray();
        longest = sorted.stream().mapToLong(o -> o.seconds() * 1000L).max().orElse(0);
    }

    String name() {
        return observations[0].station();
    }

    Place place() {
        return observations[0].place();
    }

    private int firstNotBefore(long t) {
        int i = Arrays.binarySearch(millis, t);
        return i >= 0 ? i : -i - 1;
    }

    /**
     * The weather over [from, to), cut where it changes. A measured amount holds for the time it is for, back to the
     * measurement before. What was only seen holds half way to the neighbouring records, and no further than half the
     * gap, as what is known of the air does; recent weather holds for the time before its record alone. Times that no
     * record speaks for are unknown, without rain.
     */
    List<Piece> between(Instant from, Instant to, long gapMillis, FilmParameters parameters) {
        long a = from.toEpochMilli();
        long b = to.toEpochMilli();
        long half = gapMillis / 2;
        int first = firstNotBefore(a - half);
        int last = firstNotBefore(b + Math.max(half, longest) + 1);
        long[] cuts = new long[2 + 5 * (last - first)];
        int n = 0;
        cuts[n++] = a;
        cuts[n++] = b;
        for (int i = first; i < last; i++) {
            cuts[n++] = millis[i];
            cuts[n++] = millis[i] - observations[i].seconds() * 1000L;
            cuts[n++] = millis[i] - half;
            cuts[n++] = millis[i] + half;
            cuts[n++] = i > first ? (millis[i] + millis[i - 1]) / 2 : a;
        }
        Arrays.sort(cuts);
        List<Piece> pieces = new ArrayList<>();
        long start = a;
        for (long cut : cuts) {
            if (cut > start && cut <= b) {
                pieces.add(piece(start, cut, half, parameters));
                start = cut;
            }
        }
        return pieces;
    }

    private Piece piece(long from, long to, long half, FilmParameters parameters) {
        long middle = from + (to - from) / 2;
        int next = firstNotBefore(to);
        Observation rain = measuring(from, next);
        if (rain == null) {
            rain = nearest(middle, next, half, Observation::tellsOfRain);
        }
        double rate = 0;
        boolean frozen = false;
        if (rain != null) {
            Seen seen = rain.seen();
            Fall fall = rain.at().toEpochMilli() > middle ? seen.before() : seen.now();
            rate = seen.trace()
                    ? parameters.traceMmPerHour()
                    : rain.measured() ? rain.millimetresPerHour() : fall.millimetresPerHour();
            frozen = fall.phenomenon().frozen();
        }
        return new Piece(
                from,
                to,
                rain != null,
                rain != null && rain.measured(),
                rate,
                frozen,
                air(middle, next, half, rate, frozen, parameters.assumed()));
    }

    /** What is known of the air, each part by the nearest record that has it; snow falls at freezing, rain from clouds. */
    private Air air(long middle, int next, long half, double rate, boolean frozen, Air assumed) {
        return new Air(
                nearest(middle, next, half, Air::celsius, frozen ? 0 : assumed.celsius()),
                nearest(middle, next, half, Air::humidityPercent, assumed.humidityPercent()),
                nearest(middle, next, half, Air::metresPerSecond, assumed.metresPerSecond()),
                nearest(middle, next, half, Air::cloud, rate > 0 ? 1 : assumed.cloud()));
    }

    private double nearest(long middle, int next, long half, ToDoubleFunction<Air> part, double otherwise) {
        Observation found = nearest(middle, next, half, o -> !Double.isNaN(part.applyAsDouble(o.air())));
        return found == null ? otherwise : part.applyAsDouble(found.air());
    }

    /** The amount that covers a piece: of several the one that ends first, since the later ones include it. */
    private @Nullable Observation measuring(long from, int next) {
        for (int i = next; i < observations.length && millis[i] <= from + longest; i++) {
            if (observations[i].measured() && millis[i] - observations[i].seconds() * 1000L <= from) {
                return observations[i];
            }
        }
        return null;
    }

    private @Nullable Observation nearest(long middle, int next, long half, Predicate<Observation> has) {
        Observation after = null;
        long afterMillis = 0;
        for (int i = next; i < observations.length && millis[i] - middle <= half; i++) {
            if (has.test(observations[i])) {
                after = observations[i];
                afterMillis = millis[i] - middle;
                break;
            }
        }
        for (int i = next - 1; i >= 0 && middle - millis[i] <= half; i--) {
            if (has.test(observations[i])) {
                return after == null || middle - millis[i] <= afterMillis ? observations[i] : after;
            }
        }
        return after;
    }
}
