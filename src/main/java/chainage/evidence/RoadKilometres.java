package chainage.evidence;

import chainage.exposure.Factors;
import chainage.exposure.Mix;
import chainage.exposure.RideExposure;
import chainage.ledger.Grit;
import chainage.ledger.Method;
import chainage.ledger.Moisture;
import chainage.quantity.PlainText;
import chainage.wear.Expected;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;

/**
 * Kilometres by road, in steps of {@link #STEP}.
 *
 * @param km one number a cell, moisture by moisture from dry to wet, within it grit by grit from clean to gritty
 */
public record RoadKilometres(List<Integer> km) {
    /** Distances are rounded to so many kilometres, so that no ride can be told by its length; our choice. */
    public static final int STEP = 5;

    private static final List<Moisture> MOISTURES = List.of(Moisture.DRY, Moisture.DAMP, Moisture.WET);
    private static final List<Grit> GRITS = List.of(Grit.CLEAN, Grit.DUSTY, Grit.GRITTY);
    private static final int CELLS = MOISTURES.size() * GRITS.size();
    private static final List<String> WORDS = IntStream.range(0, CELLS)
            .mapToObj(i -> moisture(i).word() + "-" + grit(i).word())
            .toList();

    /** None. */
    public static final RoadKilometres NONE =
            new RoadKilometres(IntStream.range(0, CELLS).mapToObj(i -> 0).toList());

    public RoadKilometres {
        km = List.copyOf(km);
        if (km.size() != CELLS) {
            throw new IllegalArgumentException(km.size() + " cells of roads, not " + CELLS);
        }
    }

    private static Moisture moisture(int cell) {
        return MOISTURES.get(cell / GRITS.size());
    }

    private static Grit grit(int cell) {
        return GRITS.get(cell % GRITS.size());
    }

    /**
     * Of some rides. The whole is rounded, and shared out so that no cell is a step off: rounding each alone would lose what
     * is spread thin.
     */
    static RoadKilometres of(List<RideExposure> rides) {
        double[] metres = new double[CELLS];
        for (RideExposure r : rides) {
            double all = r.metres().metres();
            double wet = r.condition().wetShare();
            double damp = r.condition().dampShare();
            int grit = GRITS.indexOf(r.condition().grit());
            metres[grit] += all * Math.max(0, 1 - wet - damp);
            metres[GRITS.size() + grit] += all * damp;
            metres[2 * GRITS.size() + grit] += all * wet;
        }
        double step = 1000.0 * STEP;
        int[] steps = new int[CELLS];
        Integer[] byRest = new Integer[CELLS];
        long left = Math.round(Arrays.stream(metres).sum() / step);
        for (int i = 0; i < CELLS; i++) {
            steps[i] = (int) Math.floor(metres[i] / step);
            left -= steps[i];
            byRest[i] = i;
        }
        Arrays.sort(byRest, Comparator.comparingDouble(i -> steps[i] - metres[i] / step));
        for (int i = 0; i < left && i < CELLS; i++) {
            steps[byRest[i]]++;
        }
        return new RoadKilometres(Arrays.stream(steps).mapToObj(s -> s * STEP).toList());
    }

    /**
     * Of a map as {@link #words} makes it.
     *
     * @throws IllegalArgumentException when a key is no road, or a value no possible distance
     */
    static RoadKilometres parse(Map<?, ?> words) {
        List<Integer> km = new ArrayList<>(NONE.km);
        words.forEach((word, value) -> {
            int cell = WORDS.indexOf(String.valueOf(word));
            if (cell < 0) {
                throw new IllegalArgumentException("\"" + PlainText.marked(String.valueOf(word)) + "\" is no road; use "
                        + String.join(", ", WORDS));
            }
            int whole = value instanceof Integer i ? i : -1;
            if (whole <= 0 || whole > 100_000 || whole % STEP != 0) {
                throw new IllegalArgumentException(word + " is " + PlainText.marked(String.valueOf(value))
                        + "; kilometres are whole, above 0, in steps of " + STEP);
            }
            km.set(cell, whole);
        });
        return new RoadKilometres(km);
    }

    /** By the word of the road, such as {@code wet-gritty}; roads without a kilometre are left out. */
    public Map<String, Integer> words() {
        Map<String, Integer> words = new LinkedHashMap<>();
        for (int i = 0; i < CELLS; i++) {
            if (km.get(i) > 0) {
                words.put(WORDS.get(i), km.get(i));
            }
        }
        return words;
    }

    /** Kilometres in all. */
    public int total() {
        return km.stream().mapToInt(Integer::intValue).sum();
    }

    /** True when no road has more kilometres here than there. */
    boolean within(RoadKilometres other) {
        return IntStream.range(0, CELLS).allMatch(i -> km.get(i) <= other.km.get(i));
    }

    /** As much of each road as there is of it in another. */
    RoadKilometres atMost(RoadKilometres other) {
        return new RoadKilometres(IntStream.range(0, CELLS)
                .mapToObj(i -> Math.min(km.get(i), other.km.get(i)))
                .toList());
    }

    RoadKilometres minus(RoadKilometres other) {
        return new RoadKilometres(IntStream.range(0, CELLS)
                .mapToObj(i -> km.get(i) - other.km.get(i))
                .toList());
    }

    /**
     * Elongation that the table expects of it.
     *
     * @param rate of dry clean road, per cent a metre, with the load
     */
    Expected expected(double rate, Factors factors) {
        Expected expected = Expected.NONE;
        for (int i = 0; i < CELLS; i++) {
            if (km.get(i) > 0) {
                expected = expected.plus(Expected.of(
                        1000.0 * km.get(i) * rate,
                        factors.wearFactor(moisture(i)) - 1,
                        factors.wearFactor(grit(i)) - 1));
            }
        }
        return expected;
    }

    /** What was ridden, for a treatment of this method. */
    Mix mix(Method method, Factors factors) {
        Mix mix = Mix.NONE;
        for (int i = 0; i < CELLS; i++) {
            if (km.get(i) > 0) {
                Moisture m = moisture(i);
                mix = mix.plus(Mix.of(
                        method,
                        1000.0 * km.get(i),
                        m == Moisture.WET ? 1 : 0,
                        m == Moisture.DAMP ? 1 : 0,
                        grit(i),
                        factors));
            }
        }
        return mix;
    }
}
