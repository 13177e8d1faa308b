package chainage.answer.due;

import chainage.analysis.Analysis;
import chainage.answer.ReadingWords;
import chainage.exposure.Factors;
import chainage.inference.Normal;
import chainage.quantity.Estimate;
import chainage.render.Formatter;
import chainage.wear.OtherWear;
import chainage.wear.Paces;
import chainage.wear.ReadingSeen;
import chainage.wear.WearModel;
import chainage.wear.WearStanding;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** How a chain's elongation was learnt: the prior, the readings, what follows. */
final class WearWhy {
    /** From this chance on it is worth saying that a chain was perhaps not new; our choice. */
    private static final double WORTH_SAYING = 0.05;

    private WearWhy() {}

    static String percent(double value) {
        return Formatter.fixed(value, 3) + " %";
    }

    static List<String> lines(Analysis analysis, String chain, WearStanding w, Formatter format) {
        List<String> lines = new ArrayList<>();
        lines.add(before(analysis, chain));
        if (w.addedUsed()) {
            lines.add("added as used: it may have started anywhere, likelier at little than at much ("
                    + analysis.factors().factor("wear.start").mark() + ")");
        }
        for (ReadingSeen s : w.readings()) {
            lines.add("  " + format.date(s.measured().at()) + ": "
                    + ReadingWords.of(s.measured().reading())
                    + String.format(
                            Locale.ROOT,
                            " (error %.2f %%)",
                            s.measured().reading().errorPercent())
                    + ", the built-in table expected " + percent(s.expectedPercent()));
        }
        Estimate pace = w.elongation().pace();
        lines.add(seen(w)
                + (w.readings().isEmpty() && w.othersRead() == 0
                        ? ""
                        : String.format(
                                Locale.ROOT,
                                ": it wears %.2f times as fast, between %.2f and %.2f (80 %%)",
                                pace.likely(),
                                pace.low(),
                                pace.high())));
        WearModel model = analysis.estimates().wear();
        WearModel.Rest rest = model.rest(chain);
        if (rest.others() > 0) {
            lines.add("the built-in table still counts for " + Formatter.percent(rest.table())
                    + " of that, what others have shown for " + Formatter.percent(rest.others()));
        }
        if (w.expected().hasWet() && model.chainsRead() > 0) {
            lines.add(road("wet", model.wetter(), analysis));
        }
        if (w.expected().hasGrit() && model.chainsRead() > 0) {
            lines.add(road("grit", model.grittier(), analysis));
        }
        double used = 1 - w.elongation().isNew();
        if (!w.addedUsed() && used >= WORTH_SAYING) {
            lines.add("its readings hardly fit a chain that was new at its first ride here: chance that it had run"
                    + " before " + Formatter.percent(used));
        }
        Estimate worn = w.elongationPercent();
        lines.add("elongation: likely " + Formatter.elongation(worn.likely()) + " %, between "
                + Formatter.elongation(worn.low()) + " and " + Formatter.elongation(worn.high()) + " % (80 %), limit "
                + Formatter.elongation(w.limitPercent()) + " %; chance that it is past it: "
                + (w.over() < 0.005 ? "under 1 %" : Formatter.percent(w.over())));
        w.bad()
                .ifPresent(bad ->
                        lines.add("its latest reading says that the limit is reached; the figures do not overrule it"));
        Estimate left = w.leftMetres();
        lines.add("on its usual roads the built-in table has "
                + Formatter.fixed(format.perThousand(w.percentPerMetre()), 3)
                + " % per 1000 " + format.unit() + ": left " + format.left(left.likely())
                + ", between "
                + format.left(left.low()) + " and " + format.left(left.high()) + " (80 %)");
        return lines;
    }

    private static String before(Analysis analysis, String chain) {
        Estimate pace = analysis.estimates().wear().before(chain);
        OtherWear others = analysis.others().wear();
        if (others.taught().equals(Paces.TABLE)) {
            Factors.Factor spread = analysis.factors().factor("wear.spread");
            return String.format(
                    Locale.ROOT,
                    "before any reading: as fast as in the built-in table, between %.2f and %.2f times (80 %%; %s)",
                    Math.exp(-Normal.Z90 * spread.value()),
                    Math.exp(Normal.Z90 * spread.value()),
                    spread.mark());
        }
        return String.format(
                Locale.ROOT,
                "before any reading of yours, by %s of others' chains: %.2f times as fast as in the built-in table, between"
                        + " %.2f and %.2f (80 %%; chainage explain evidence)",
                Formatter.count(others.readings(), "reading", "readings"),
                pace.likely(),
                pace.low(),
                pace.high());
    }

    private static String road(String what, Estimate times, Analysis analysis) {
        Factors.Factor road = analysis.factors().factor("wear.spread.road");
        return String.format(
                Locale.ROOT,
                "what %s adds to wear: %.2f times what the built-in table says, between %.2f and %.2f (80 %%) by readings, %.2f"
                        + " to %.2f before any (%s)",
                what,
                times.likely(),
                times.low(),
                times.high(),
                Math.exp(-Normal.Z90 * road.value()),
                Math.exp(Normal.Z90 * road.value()),
                road.mark());
    }

    private static String seen(WearStanding w) {
        String others =
                w.othersRead() == 0 ? "" : "those of " + Formatter.count(w.othersRead(), "other chain", "other chains");
        if (w.readings().isEmpty()) {
            return others.isEmpty()
                    ? "no reading of any chain yet, so that is all there is"
                    : "no reading of its own, by " + others;
        }
        return "by " + (w.readings().size() == 1 ? "this reading" : "these readings")
                + (others.isEmpty() ? "" : " and " + others);
    }
}
