package chainage.ride;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Adds up how the ride was pedalled, by stated gear or else by development. */
final class PedallingFold {
    private static final double BAND_METRES = 0.25;
    // Metres per turn, beyond which it is no gear of a bicycle (our guess).
    private static final double LEAST_DEVELOPMENT = 1;
    private static final double MOST_DEVELOPMENT = 12;
    /** More rows than any drivetrain has gears; beyond it a file states nonsense. */
    private static final int MOST_ROWS = 60;

    private static final int UNKNOWN = -1;

    private final Map<Integer, Sum> sums = new HashMap<>();
    /** Of the step before, whose gear is mostly this one's too. */
    private @Nullable Sum latest;

    private int latestKey;
    private int ring;
    private int cog;
    private boolean turned;
    private double coastingSeconds;
    private double coastingMetres;

    private static final class Sum {
        double seconds;
        double revolutions;
        double joules;
        double metres;

        void add(Sum other) {
            seconds += other.seconds;
            revolutions += other.revolutions;
            joules += other.joules;
            metres += other.metres;
        }
    }

    void shift(int newRing, int newCog) {
        // Teeth outside these are no bicycle's; shifters state some before they know their gear.
        if (newRing >= 20 && newRing <= 70) {
            ring = newRing;
        }
        if (newCog >= 9 && newCog <= 60) {
            cog = newCog;
        }
    }

    void step(double seconds, double cadence, double watts, double metres, double speed) {
        if (Double.isNaN(cadence)) {
            return;
        }
        if (cadence == 0) {
            if (speed >= RideFold.MOVING_METRES_PER_SECOND) {
                coastingSeconds += seconds;
                coastingMetres += metres;
            }
            return;
        }
        turned = true;
        int key = key(cadence, speed);
        Sum sum = latest;
        if (sum == null || key != latestKey) {
            sum = sums.computeIfAbsent(key, k -> new Sum());
            latest = sum;
            latestKey = key;
        }
        sum.seconds += seconds;
        sum.revolutions += cadence / 60 * seconds;
        sum.joules += Double.isNaN(watts) ? 0 : watts * seconds;
        sum.metres += metres;
    }

    /** Both sums in a new one. */
    PedallingFold and(PedallingFold other) {
        PedallingFold both = new PedallingFold();
        for (PedallingFold one : List.of(this, other)) {
            one.sums.forEach((key, sum) -> add(both.sums, key, sum));
            both.turned |= one.turned;
            both.coastingSeconds += one.coastingSeconds;
            both.coastingMetres += one.coastingMetres;
        }
        return both;
    }

    /** Stated gears as ring × 256 + cog, bands as their number, 4 to 48. */
    private int key(double cadence, double speed) {
        if (ring > 0 && cog > 0) {
            return ring * 256 + cog;
        }
        double development = speed / (cadence / 60);
        return development >= LEAST_DEVELOPMENT && development <= MOST_DEVELOPMENT
                ? (int) (development / BAND_METRES)
                : UNKNOWN;
    }

    Pedalling result(boolean powered) {
        if (!turned) {
            // A cadence that is always 0 is a sensor that is not there.
            return Pedalling.NONE;
        }
        Map<Integer, Sum> rows = new HashMap<>();
        sums.forEach((key, sum) -> add(rows, key, sum));
        List<Integer> bySize = new ArrayList<>(rows.keySet());
        bySize.sort(Comparator.comparingDouble((Integer k) -> seconds(rows, k)).thenComparing(k -> k));
        for (int i = 0; rows.size() > MOST_ROWS; i++) {
            int key = bySize.get(i);
            Sum sum = key == UNKNOWN ? null : rows.remove(key);
            if (sum != null) {
                add(rows, UNKNOWN, sum);
            }
        }
        List<Pedalling.Row> list = new ArrayList<>();
        rows.entrySet().stream()
                .sorted(Map.Entry.comparingByKey())
                .forEach(e -> list.add(row(e.getKey(), e.getValue(), powered)));
        return new Pedalling(list, coastingSeconds, coastingMetres);
    }

    private static double seconds(Map<Integer, Sum> rows, int key) {
        Sum sum = rows.get(key);
        return sum == null ? 0 : sum.seconds;
    }

    private static void add(Map<Integer, Sum> rows, int key, Sum sum) {
        rows.computeIfAbsent(key, k -> new Sum()).add(sum);
    }

    private static Pedalling.Row row(int key, Sum sum, boolean powered) {
        boolean gear = key >= 256;
        double development = gear || key == UNKNOWN ? Double.NaN : (key + 0.5) * BAND_METRES;
        return new Pedalling.Row(
                gear ? key / 256 : 0,
                gear ? key % 256 : 0,
                development,
                sum.seconds,
                sum.revolutions,
                powered ? sum.joules : Double.NaN,
                sum.metres);
    }
}
