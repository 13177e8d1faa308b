package chainage.answer;

import chainage.analysis.Analysis;
import chainage.analysis.Outlier;
import chainage.ledger.Ledger;
import chainage.render.Formatter;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;

/** The facts that contradict each other, in words, and those about some chains that do not fit the others. */
public final class Contradictions {
    private Contradictions() {}

    /**
     * A line each, with what to do.
     *
     * @param ledger whose facts contradict each other
     * @param chains whose readings are looked at
     */
    public static List<String> of(Ledger ledger, Analysis analysis, Collection<String> chains, Formatter format) {
        List<String> found = new ArrayList<>();
        ledger.problems().forEach(p -> found.add(format.instants(p.what()) + "; " + p.hint()));
        Outlier.readings(analysis, chains).forEach(o -> found.add(OutlierWords.of(o, format)));
        return found;
    }
}
