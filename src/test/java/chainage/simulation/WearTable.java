package chainage.simulation;

import chainage.analysis.Analysis;
import chainage.ledger.Reading;
import chainage.quantity.Estimate;
import chainage.standing.Standing;
import chainage.wear.ReadingSeen;
import chainage.wear.WearStanding;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/** What the program said of chains' elongation, beside what was true, by how many readings it had seen of that chain. */
final class WearTable {
    /** Least readings of the chain in each row. */
    private static final int[] FROM = {0, 2, 5, 10};

    private static final String[] ROWS = {"0-1", "2-4", "5-9", "10+"};

    /** One row's sums. */
    static final class Row {
        private int chains;
        private int looks;
        private int held;
        private double bias;
        private double width;
        private double error;
        private double tableError;
        private double lastError;

        int looks() {
            return looks;
        }

        /** Share of 80 % intervals that held the true elongation. */
        double held() {
            return (double) held / looks;
        }

        /** Mean error of the likely elongation, per cent. */
        double error() {
            return error / looks;
        }

        /** That of the table alone. */
        double tableError() {
            return tableError / looks;
        }

        /** That of the last reading, carried on at the table's rate. */
        double lastError() {
            return lastError / looks;
        }

        private String words() {
            return String.format(
                    Locale.ROOT,
                    "%5d | %5d | %3.0f | %+.3f | %.3f | %.3f | %.3f | %.3f",
                    chains,
                    looks,
                    100 * held(),
                    bias / looks,
                    width / looks,
                    error(),
                    tableError(),
                    lastError());
        }
    }

    private final Map<Scenario, Row[]> rows = new TreeMap<>();

    /** Looks at a story after every so many rides. */
    void take(Story story, int every) {
        Row[] mine = rows.computeIfAbsent(story.scenario(), s -> {
            Row[] fresh = new Row[FROM.length];
            for (int i = 0; i < fresh.length; i++) {
                fresh[i] = new Row();
            }
            return fresh;
        });
        List<Story.Worn> chains = story.chains();
        // Looks at one chain say nearly the same, so that chains are counted too.
        @Nullable String[] lookedAt = new String[FROM.length];
        for (int i = every - 1; i < chains.size(); i += every) {
            look(story, chains.get(i), mine, lookedAt);
        }
    }

    private static void look(Story story, Story.Worn worn, Row[] rows, @Nullable String[] lookedAt) {
        Analysis analysis = story.at(worn.at());
        Standing standing = analysis.standing(worn.chain()).orElse(null);
        if (standing == null) {
            return; // retired the same evening
        }
        WearStanding wear = standing.wear();
        int of = FROM.length - 1;
        while (worn.readings() < FROM[of]) {
            of--;
        }
        Row row = rows[of];
        Estimate e = wear.elongationPercent();
        if (!worn.chain().equals(lookedAt[of])) {
            lookedAt[of] = worn.chain();
            row.chains++;
        }
        row.looks++;
        row.held += e.low() <= worn.percent() && worn.percent() <= e.high() ? 1 : 0;
        row.bias += e.likely() - worn.percent();
        row.width += e.high() - e.low();
        row.error += Math.abs(e.likely() - worn.percent());
        row.tableError += Math.abs(wear.expectedPercent() - worn.percent());
        ReadingSeen last = wear.readings().isEmpty()
                ? null
                : wear.readings().get(wear.readings().size() - 1);
        double carried = wear.expectedPercent();
        if (last != null && last.measured().reading() instanceof Reading.Elongation l) {
            carried = l.percent() + wear.expectedPercent() - last.expectedPercent();
        }
        row.lastError += Math.abs(carried - worn.percent());
    }

    Row row(Scenario scenario, int place) {
        return Objects.requireNonNull(rows.get(scenario))[place];
    }

    @Override
    public String toString() {
        StringBuilder text = new StringBuilder(
                "wear: scenario | readings | chains | looks | held % | bias | width | error | of the table | of the last reading\n");
        rows.forEach((scenario, all) -> {
            for (int i = 0; i < all.length; i++) {
                if (all[i].looks > 0) {
                    text.append(String.format(
                            Locale.ROOT, "%-16s | %4s | %s%n", scenario.words(), ROWS[i], all[i].words()));
                }
            }
        });
        return text.toString();
    }
}
