package chainage.cli;

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
    static List<String> readings(Picture picture, Collection<String> chains, Words words) {
        List<String> lines = new ArrayList<>();
        for (String chain : chains) {
            for (WearModel.Doubt d : picture.estimates().wear().doubts(chain)) {
                Seen seen = d.seen();
                lines.add(
                        chain + ": the reading of " + words.time(seen.measured().at()) + " ("
                                + ReadingWords.of(seen.measured().reading()) + ") does not fit: all else says "
                                + Words.elongation(d.expected().low()) + " to "
                                + Words.elongation(d.expected().high())
                                + " %; measure again at three places, or take the wrong one back (chainage log)");
            }
        }
        return lines;
    }

    /** Lives of treatments of these chains, one line each. */
    static List<String> lives(Picture picture, Collection<String> chains, Words words) {
        List<String> lines = new ArrayList<>();
        for (ProductLife product : picture.estimates().lives().products()) {
            for (ProductLife.Doubt d : product.doubts()) {
                Life life = d.life();
                if (chains.contains(life.chain())) {
                    boolean soon =
                            life.ended() && life.metres() < product.life().likely();
                    lines.add(life.chain() + ": " + life.product().product() + " of " + words.time(life.treatedAt())
                            + (soon
                                    ? " was noisy after only "
                                    : life.ended() ? " was noisy only after " : " was silent for ")
                            + words.distance(life.metres()) + ", far from all else known of it; "
                            + (soon
                                    ? "was it a wet ride without a tag, or the wrong day (chainage log)?"
                                    : "was a treatment left out (chainage treat)?"));
                }
            }
        }
        return lines;
    }
}
