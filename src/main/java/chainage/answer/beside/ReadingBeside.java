package chainage.answer.beside;

import chainage.analysis.Analysis;
import chainage.exposure.ChainExposure;
import chainage.ledger.Event;
import chainage.ledger.Reading;
import chainage.quantity.Moment;
import chainage.quantity.PlainText;
import chainage.render.Formatter;
import chainage.standing.Standing;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/** What is said beside a reading of wear. */
public final class ReadingBeside {
    /** A reading that lies further above than so many of its errors is remarked upon; our choice. */
    private static final double FAR = 2;

    private ReadingBeside() {}

    /** Whether a length is the chain's baseline, or else how it stands to that. */
    public static List<String> baseline(Analysis before, String c, Moment at, Reading reading, Formatter format) {
        if (!(reading instanceof Reading.Elongation e)) {
            return List.of();
        }
        ChainExposure chain = before.exposures().chains().get(c);
        if (chain == null || chain.riddenMetres(at.instant()) == 0) {
            return List.of("no ride on " + c + " before that: it is the baseline of the readings to come");
        }
        Event.@Nullable Measured first = before.facts().readings(c).stream()
                .filter(m -> m.reading() instanceof Reading.Elongation && chain.riddenMetres(m.at()) == 0)
                .reduce((a, b) -> b)
                .orElse(null);
        if (first == null || !(first.reading() instanceof Reading.Elongation base)) {
            return List.of();
        }
        return List.of("against the baseline of " + format.date(first.at()) + ", "
                + Formatter.elongation(e.percent()) + " − " + Formatter.elongation(base.percent()) + " = "
                + Formatter.elongation(e.percent() - base.percent()) + " %");
    }

    /**
     * What a rider may do about a reading that is far above all that the chain's rides explain. It is believed but little
     * then, which nobody should have to find out from the figures.
     */
    public static List<String> surprise(Analysis before, String c, Moment at, Reading reading, Formatter format) {
        Standing standing = before.standing(c).orElse(null);
        ChainExposure chain = before.exposures().chains().get(c);
        if (!(reading instanceof Reading.Elongation e) || standing == null || chain == null) {
            return List.of();
        }
        boolean ridden = chain.riddenMetres(at.instant()) > 0;
        double most = ridden ? standing.wear().elongationPercent().high() : 0;
        if (e.percent() - FAR * e.errorPercent() <= most
                || Objects.requireNonNull(before.facts().chains().get(c)).used()) {
            return List.of();
        }
        return List.of(
                Formatter.elongation(e.percent()) + " % is far more than "
                        + (ridden
                                ? "its " + format.distance(chain.riddenMetres(at.instant())) + " explain (at most "
                                        + Formatter.elongation(most) + " %)"
                                : "a new chain has")
                        + ", so it is hardly believed; measure once more, at other places",
                "if it had run before it came to you: chainage chain set " + PlainText.typed(c) + " --used");
    }
}
