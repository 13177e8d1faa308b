package chainage.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Pairs of times, program and baseline, taken one after the other. */
final class Ratio {
    private final String what;
    private final List<Double> program = new ArrayList<>();
    private final List<Double> baseline = new ArrayList<>();
    private final List<Double> ratios = new ArrayList<>();

    Ratio(String what) {
        this.what = what;
    }

    void add(double programSeconds, double baselineSeconds) {
        program.add(programSeconds);
        baseline.add(baselineSeconds);
        ratios.add(programSeconds / baselineSeconds);
    }

    /** Median of the pairs' ratios, their spread, and the median times behind them. */
    String row() {
        List<Double> sorted = ratios.stream().sorted().toList();
        return String.format(
                Locale.ROOT,
                "| %s | %.2f | %.2f..%.2f | %d | %.3f s | %.3f s |",
                what,
                median(ratios),
                sorted.get(0),
                sorted.get(sorted.size() - 1),
                sorted.size(),
                median(program),
                median(baseline));
    }

    /** Median time of the program. */
    double seconds() {
        return median(program);
    }

    static double median(List<Double> values) {
        List<Double> sorted = values.stream().sorted().toList();
        int half = sorted.size() / 2;
        return sorted.size() % 2 == 1 ? sorted.get(half) : (sorted.get(half - 1) + sorted.get(half)) / 2;
    }
}
