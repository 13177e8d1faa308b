package chainage.answer;

import chainage.analysis.Analysis;
import chainage.analysis.Bare;
import chainage.quantity.PlainText;
import chainage.render.Formatter;
import chainage.render.Out;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** The next command to type, for a rider who is not there yet. */
public final class NextStep {
    /** So many bikes are named; more would bury the next step. */
    private static final int BIKES = 3;

    private NextStep() {}

    /**
     * What comes next while nothing can be answered.
     *
     * @param missing where there is no ledger yet; null where there is one
     */
    public static List<String> next(@Nullable String missing, Analysis analysis) {
        if (analysis.rides().isEmpty() && analysis.ledger().bikes().isEmpty()) {
            return List.of(
                    missing == null ? "Nothing here yet." : "There is no ledger at " + missing + " yet.",
                    "Import your rides: chainage import FOLDER",
                    "Or see an invented season first: chainage demo");
        }
        if (analysis.ledger().bikes().isEmpty()) {
            return List.of("No bike yet. Add one: chainage bike add NAME");
        }
        if (analysis.ledger().chains().isEmpty()) {
            return List.of("No chain yet. Add one: chainage chain add NAME");
        }
        return List.of("No chain in use. Add one: chainage chain add NAME");
    }

    /** Says which rides no chain has, and how to give them one. */
    public static void unattributed(Analysis analysis, Formatter format, Out out) {
        int n = count(analysis.bare());
        if (n > 0) {
            out.line("Without a chain: " + Formatter.count(n, "ride", "rides") + ", "
                    + format.distance(analysis.bareMetres()) + ".");
            attribute(analysis, format).forEach(line -> out.hint("  " + line));
        }
    }

    private static int count(List<Bare> bare) {
        return bare.stream().mapToInt(Bare::rides).sum();
    }

    /** How to give rides without a chain theirs: a line for each bike with a gap, the longest first. */
    public static List<String> attribute(Analysis analysis, Formatter format) {
        List<Bare> bare = analysis.bare();
        List<String> lines = new ArrayList<>();
        if (analysis.ledger().bikes().isEmpty()) {
            lines.add("Next: chainage bike add NAME");
            return lines;
        }
        bare.stream()
                .filter(b -> b.bike() == null)
                .forEach(b -> lines.add(Formatter.count(b.rides(), "ride is", "rides are")
                        + " on no bike. Next: chainage assign "
                        + b.id() + " --bike NAME, or a rule for many: chainage assign --help"));
        if (analysis.ledger().chains().isEmpty()) {
            lines.add("Next: chainage chain add NAME");
            return lines;
        }
        bare.stream()
                .filter(b -> b.bike() != null)
                .sorted(Comparator.comparing((Bare b) -> -b.rides()).thenComparing(b -> String.valueOf(b.bike())))
                .limit(BIKES)
                .forEach(b -> lines.add(gap(analysis, b, String.valueOf(b.bike()), format)));
        if (count(bare) > 1 && !analysis.ledger().chains().isEmpty()) {
            lines.add("All of them: chainage rides --unattributed");
        }
        return lines;
    }

    private static String gap(Analysis analysis, Bare bare, String bike, Formatter format) {
        String until = analysis.facts().installations().stream()
                .filter(i -> i.bike().equals(bike) && i.interval().from().isAfter(bare.first()))
                .findFirst()
                .map(i -> " --until \"" + format.time(i.interval().from()) + "\"")
                .orElse("");
        String leave = until.isEmpty()
                ? ""
                : "; or leave them: chainage bike set " + PlainText.typed(bike) + " --chains-from \""
                        + until.substring(until.indexOf('"') + 1);
        return bike + ": " + Formatter.count(bare.rides(), "ride", "rides") + ", "
                + format.distance(bare.metres())
                + ", without a chain. Next: chainage install CHAIN " + PlainText.typed(bike) + " --on "
                + format.date(bare.first()) + until + leave;
    }
}
