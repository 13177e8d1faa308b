package chainage.cli;

import chainage.analysis.Analysis;
import chainage.answer.ReadingWords;
import chainage.render.Formatter;
import chainage.treatment.Life;
import chainage.treatment.ProductLife;
import chainage.wear.Seen;
import chainage.wear.WearModel;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;

/** Readings and remarks that do not fit what else is known: said, so that nothing is averaged away in silence. */
final class Doubts {
    private Doubts() {}

    /** Readings of these chains, one line each. */
    static List<String> readings(Analysis analysis, Collection<String> chains, Formatter format) {
        List<String> lines = new ArrayList<>();
        for (String chain : chains) {
            for (WearModel.Doubt d : analysis.estimates().wear().doubts(chain)) {
                Seen seen = d.seen();
                lines.add(chain + ": the reading of "
                        + format.time(seen.measured().at()) + " ("
                        + ReadingWords.of(seen.measured().reading()) + ") does not fit: all else says "
                        + Formatter.elongation(d.expected().low()) + " to "
                        + Formatter.elongation(d.expected().high())
                        + " %; measure again at three places, or take the wrong one back (chainage log)");
            }
        }
        return lines;
    }

    /** Lives of treatments of these chains, one line each. */
    static List<String> lives(Analysis analysis, Collection<String> chains, Formatter format) {
        List<String> lines = new ArrayList<>();
        for (ProductLife product : analysis.estimates().lives().products()) {
            for (ProductLife.Doubt d : product.doubts()) {
                Life life = d.life();
                if (chains.contains(life.chain())) {
                    boolean soon =
                            life.ended() && life.metres() < product.life().likely();
                    lines.add(life.chain() + ": " + life.product().product() + " of " + format.time(life.treatedAt())
                            + (soon
                                    ? " was noisy after only "
                                    : life.ended() ? " was noisy only after " : " was silent for ")
                            + format.distance(life.metres()) + ", far from all else known of it; "
                            + (soon
                                    ? "was it a wet ride without a tag, or the wrong day (chainage log)?"
                                    : "was a treatment left out (chainage treat)?"));
                }
            }
        }
        return lines;
    }
}
