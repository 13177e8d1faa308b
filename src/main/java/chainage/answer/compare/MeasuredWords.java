package chainage.answer.compare;

import chainage.analysis.Analysis;
import chainage.analysis.MeasuredComparison;
import chainage.answer.loss.PairWords;
import chainage.comparison.MoreToSee;
import chainage.ledger.Event;
import chainage.render.Formatter;
import java.util.List;
import java.util.stream.Stream;

/** What rides with two power meters say of products, in sentences. */
final class MeasuredWords {
    private MeasuredWords() {}

    static String sentence(Analysis analysis, MeasuredComparison c) {
        String better = c.better().product();
        String worse = c.worse().product();
        return switch (c.finding()) {
            case FIRM ->
                better + " loses less than " + worse + ", by "
                        + PairWords.percent(c.more().middle(), 1)
                        + " of the power ("
                        + PairWords.range(c.more().low(), c.more().high()) + ", 80 %): chance "
                        + PairWords.chance(c.chance()) + ".";
            case NOT_YET ->
                "Not sure yet: " + better + " loses less than " + worse + ", chance "
                        + PairWords.chance(c.chance())
                        + more(c);
            case UNSEEN -> {
                List<String> unseen = unseen(analysis, c);
                yield unseen.isEmpty()
                        ? "Not measured: nobody has ridden both " + better + " and " + worse + " by two meters."
                        : "Not measured: no ride by both meters on " + String.join(" and ", unseen) + ".";
            }
        };
    }

    private static String more(MeasuredComparison c) {
        if (c.needed() == 0) {
            return ".";
        }
        return "; "
                + (c.needed() > MoreToSee.MOST
                        ? "as they look now, not even " + MoreToSee.MOST
                                + " more rides with each would show a difference"
                        : "about " + Formatter.count(c.needed(), "more ride", "more rides")
                                + " with each, by both meters, would show it")
                + ".";
    }

    private static List<String> unseen(Analysis analysis, MeasuredComparison c) {
        return Stream.of(c.better(), c.worse())
                .filter(p -> !analysis.pairs().isSeen(p))
                .map(Event.ProductDescribed::product)
                .toList();
    }

    /** Which chain to ride next. */
    static String next(Analysis analysis) {
        return MeasuredComparison.next(analysis)
                .map(n -> "Ride " + n.chain().chain() + " next by both meters ("
                        + n.chain().exposure().product().product() + ", "
                        + Formatter.percent(n.chain().treatment().usedOfLikely())
                        + " of its life): of all chains that tells the most, "
                        + Formatter.percent(n.narrower())
                        + " of what is unknown of your products and their lives.")
                .orElse("No ride by two power meters yet; chainage explain pairs says how.");
    }
}
