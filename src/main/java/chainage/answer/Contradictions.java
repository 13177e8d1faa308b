package chainage.answer;

import chainage.analysis.Analysis;
import chainage.analysis.Outlier;
import chainage.attribution.AttributedRide;
import chainage.ledger.Ledger;
import chainage.render.Formatter;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;

/**
 * The facts that contradict each other, in words, those about some chains that do not fit the others, and rides that
 * cannot both have been.
 */
public final class Contradictions {
    private Contradictions() {}

    /**
     * A line each, with what to do.
     *
     * @param ledger whose facts contradict each other
     * @param chains whose readings and rides are looked at; rides that no chain has are left to {@code chainage check}
     */
    public static List<String> of(Ledger ledger, Analysis analysis, Collection<String> chains, Formatter format) {
        List<String> found = new ArrayList<>();
        ProblemWords words = new ProblemWords(format);
        ledger.problems().forEach(p -> found.add(words.of(p) + "; " + ProblemWords.hint(p)));
        analysis.overlaps().stream()
                .filter(o -> isOf(chains, o.first()) || isOf(chains, o.second()))
                .forEach(o -> found.add(OutingWords.of(o, format)));
        Outlier.readings(analysis, chains).forEach(o -> found.add(OutlierWords.of(o, format)));
        return found;
    }

    private static boolean isOf(Collection<String> chains, AttributedRide ride) {
        return chains.contains(String.valueOf(ride.chain()));
    }
}
