package chainage.answer.loss;

import chainage.analysis.Analysis;
import chainage.analysis.Pairs;
import chainage.ledger.Event;
import chainage.meter.Laid;
import chainage.meter.MeasuredLoss;
import chainage.meter.MeasuredLoss.Share;
import chainage.meter.OtherLoss;
import chainage.render.Formatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** What rides with two power meters tell, in sentences. */
public final class PairWords {
    // Of the power. What laboratories measured lies within (Spicer et al. 2001: 1.4 % at best; a drive that loses a
    // tenth
    // is worn out, or a meter is).
    private static final double LEAST_LOSS = 0.005;
    private static final double MOST_LOSS = 0.10;

    private PairWords() {}

    /** Why two recordings cannot be compared. */
    public static String apart(Laid.Apart apart) {
        return switch (apart.why()) {
            case NOTHING_IN_COMMON ->
                "left out: " + Formatter.count(Math.round(apart.figure()), "minute", "minutes") + " in common";
            case UNLIKE ->
                "left out: the two do not rise and fall together (correlation " + Formatter.fixed(apart.figure(), 2)
                        + " at best); is one of another ride?";
            case TOO_SHORT ->
                "left out: " + Formatter.count(Math.round(apart.figure()), "minute", "minutes")
                        + " of steady pedalling in both; it takes 20";
            case JUMPED ->
                "left out: their ratio jumped by " + percent(apart.figure(), 1)
                        + " on the way, as if a meter had been zeroed during the ride";
            case FAR_APART ->
                "left out: behind the chain " + percent(Math.abs(apart.figure()), 0)
                        + (apart.figure() > 0 ? " more" : " less")
                        + " than before it; are both placed rightly, and calibrated?";
            case NO_TRACE -> "left out: imported before power was kept by the minute; chainage import --again FOLDER";
        };
    }

    /** A share of the power. */
    public static String percent(double share, int decimals) {
        return Formatter.fixed(100 * share, decimals) + " %";
    }

    /** Shares of the power. */
    public static String range(double low, double high) {
        return Formatter.fixed(100 * low, 1) + " to " + Formatter.fixed(100 * high, 1) + " %";
    }

    /** A chance, which is never told as certain. */
    public static String chance(double p) {
        return p > 0.99 ? "over 99 %" : p < 0.01 ? "under 1 %" : Formatter.percent(p);
    }

    /** Whose rides all of it rests on. */
    public static String whose(Pairs pairs) {
        return pairs.others().isEmpty()
                ? "your rides with two power meters"
                : pairs.learnt().seen().isEmpty()
                        ? "others' rides with two power meters"
                        : "your and others' rides with two power meters";
    }

    /** How many rides measured something, this rider's and others'. */
    public static String rides(int own, OtherLoss.Shown others) {
        String yours = Formatter.count(own, "ride", "rides");
        if (others.rides() == 0) {
            return yours;
        }
        return (own == 0 ? "" : yours + " of yours and ") + shown(others);
    }

    private static String shown(OtherLoss.Shown others) {
        return Formatter.count(others.rides(), "ride", "rides") + " of "
                + Formatter.count(others.riders(), "other rider", "other riders");
    }

    /** The same on a product. */
    public static String rides(Pairs pairs, Event.ProductDescribed product) {
        return rides(pairs.learnt().rides(product.product()), pairs.others().shown(product));
    }

    /** What others' meters alone say of a product, and how much of what is known rests on that; null where nothing. */
    public static @Nullable String ofOthers(Analysis analysis, Event.ProductDescribed product) {
        Pairs pairs = analysis.pairs();
        OtherLoss.Shown shown = pairs.others().shown(product);
        if (shown.rides() == 0) {
            return null;
        }
        Share before = pairs.riseByOthers(analysis, product);
        return product.product() + ": two power meters of others, " + shown(shown)
                + ", alone say that the end of its life takes " + range(before.low(), before.high())
                + " of the power more than a fresh treatment with you (80 %; chainage explain evidence); rides of yours: "
                + pairs.learnt().rides(product.product());
    }

    /** How far the end of a product's treatment lies over its beginning, by the rides; a line a product seen. */
    public static List<String> rises(Analysis analysis, Pairs pairs) {
        List<String> lines = new ArrayList<>();
        Set<String> names = new TreeSet<>(
                pairs.learnt().seen().stream().map(MeasuredLoss.Seen::product).toList());
        analysis.ledger().products().values().stream()
                .filter(p -> pairs.others().shown(p).rides() > 0)
                .forEach(p -> names.add(p.product()));
        for (String name : names) {
            Event.ProductDescribed product = analysis.ledger().product(name).orElse(null);
            if (product == null) {
                continue;
            }
            Pairs.Rise rise = pairs.rise(analysis, product);
            Share more = rise.more();
            String rides = rides(pairs, product);
            if (!rise.measured()) {
                lines.add(
                        name + ": " + rides
                                + ", too few, or too much alike in how far the treatment was used, to tell how its loss grows.");
            } else if (rise.isTold()) {
                lines.add(name + ": at the end of its life " + percent(more.middle(), 1)
                        + " of the power more than fresh (" + range(more.low(), more.high()) + ", 80 %), by "
                        + rides
                        + "; chance that it is more at all " + chance(more.positive()) + ".");
            } else {
                lines.add(name + ": not sure yet; at the end of its life " + range(more.low(), more.high())
                        + " of the power more than fresh (80 %), by " + rides + "; chance that it is more at all "
                        + chance(more.positive()) + ", told from " + Formatter.percent(Pairs.TOLD) + " on.");
            }
        }
        return lines;
    }

    /** What the rides cannot tell. */
    public static List<String> limits(Pairs pairs) {
        MeasuredLoss learnt = pairs.learnt();
        List<String> lines = new ArrayList<>();
        if (learnt.seen().isEmpty()) {
            return List.of("None of these rides is yours: how your own chains fare, two meters of your own would show"
                    + " (chainage explain pairs).");
        }
        double drift = learnt.drift();
        lines.add("From ride to ride the meters wander by " + percent(drift, 1)
                + "; what differs by less takes many rides, on both sides of it.");
        lines.add(
                learnt.isCalibrated()
                        ? "The level rests on the calibration that you stated, as far as that holds."
                        : "The level is not measured: how far the two meters are off each other is as unknown as the loss"
                                + " itself. Only differences between states are.");
        return lines;
    }

    /** What is wrong with a ride or a pair of meters though it could be laid; empty for most. */
    static List<String> doubts(Pairs pairs, MeasuredLoss.Seen seen) {
        List<String> doubts = new ArrayList<>();
        if (pairs.learnt().isOdd(seen)) {
            doubts.add("does not fit the others, so it weighs little");
        }
        double lost = pairs.learnt().lost(seen, true);
        if (pairs.learnt().isCalibrated() && (lost < LEAST_LOSS || lost > MOST_LOSS)) {
            doubts.add(String.format(
                    Locale.ROOT, "a loss of %.1f %% is a meter's fault: chains lose 0.5 to 10 %%", 100 * lost));
        }
        return doubts;
    }
}
