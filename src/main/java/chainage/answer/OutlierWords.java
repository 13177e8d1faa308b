package chainage.answer;

import chainage.analysis.Outlier;
import chainage.render.Formatter;
import chainage.treatment.Life;
import chainage.wear.ReadingSeen;

/** What does not fit, in a sentence, and what to do about it. */
public final class OutlierWords {
    private OutlierWords() {}

    public static String of(Outlier outlier, Formatter format) {
        if (outlier instanceof Outlier.Reading r) {
            ReadingSeen seen = r.doubt().seen();
            return r.chain() + ": the reading of " + format.time(seen.measured().at()) + " ("
                    + ReadingWords.of(seen.measured().reading()) + ") does not fit: all else says "
                    + Formatter.elongation(r.doubt().expected().low()) + " to "
                    + Formatter.elongation(r.doubt().expected().high())
                    + " %; measure again at three places, or take the wrong one back (chainage log)";
        }
        if (outlier instanceof Outlier.TreatmentLife t) {
            Life life = t.life();
            return t.chain() + ": " + t.product().product().product() + " of " + format.time(life.treatedAt())
                    + (t.soon()
                            ? " was noisy after only "
                            : life.ended() ? " was noisy only after " : " made no noise for ")
                    + format.distance(life.metres()) + ", far from all else known of it; "
                    + (t.soon()
                            ? "was it a wet ride without a tag, or the wrong day (chainage log)?"
                            : "was a treatment left out (chainage treat)?");
        }
        throw new AssertionError(outlier);
    }
}
