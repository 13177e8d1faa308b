package chainage.bench;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;

/** Times of the program, of an older one where there is one to compare with, and of the baseline, taken in turns. */
final class Ratio {
    private final String what;
    private final List<List<Double>> programs = new ArrayList<>();
    private final List<Double> baseline = new ArrayList<>();

    /** Of so many programs, the one that is measured first. */
    Ratio(String what, int programs) {
        this.what = what;
        for (int i = 0; i < programs; i++) {
            this.programs.add(new ArrayList<>());
        }
    }

    /** One round: seconds of each program in their order, and of the baseline. */
    void add(List<Double> programSeconds, double baselineSeconds) {
        for (int i = 0; i < programs.size(); i++) {
            programs.get(i).add(programSeconds.get(i));
        }
        baseline.add(baselineSeconds);
    }

    /** The heading of the rows. */
    static String heading(boolean older) {
        return older
                ? "| what | ratio, median | min..max | before | min..max | reps | program | before | baseline |\n"
                        + "|---|---|---|---|---|---|---|---|---|"
                : "| what | ratio, median | min..max | reps | program | baseline |\n|---|---|---|---|---|---|";
    }

    /** For each program the median of its rounds' ratios and their spread; then the median times behind them. */
    String row() {
        StringBuilder row = new StringBuilder("| " + what);
        for (List<Double> program : programs) {
            List<Double> ratios = new ArrayList<>();
            for (int i = 0; i < program.size(); i++) {
                ratios.add(program.get(i) / baseline.get(i));
            }
            Collections.sort(ratios);
            row.append(String.format(
                    Locale.ROOT, " | %.2f | %.2f..%.2f", median(ratios), ratios.get(0), ratios.get(ratios.size() - 1)));
        }
        row.append(" | ").append(baseline.size());
        programs.forEach(program -> row.append(String.format(Locale.ROOT, " | %.3f s", median(program))));
        return row.append(String.format(Locale.ROOT, " | %.3f s |", median(baseline)))
                .toString();
    }

    /** Median time of the program. */
    double seconds() {
        return median(programs.get(0));
    }

    static double median(List<Double> values) {
        List<Double> sorted = values.stream().sorted().toList();
        int half = sorted.size() / 2;
        return sorted.size() % 2 == 1 ? sorted.get(half) : (sorted.get(half - 1) + sorted.get(half)) / 2;
    }
}
