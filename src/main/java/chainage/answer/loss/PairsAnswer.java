package chainage.answer.loss;

import chainage.analysis.Analysis;
import chainage.analysis.Pairs;
import chainage.friction.RideLoss;
import chainage.meter.Laid;
import chainage.meter.RidePair;
import chainage.meter.RidePairs;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import chainage.render.Unit;
import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;

/**
 * The rides that two power meters recorded, one before the chain and one behind it, and what they tell together.
 *
 * @param analysis it is taken from
 */
public record PairsAnswer(Analysis analysis, Formatter format) implements Answer {
    private static final Columns<Row> ROWS = Columns.of(
            Column.<Row>id(
                            "id",
                            "by which the ride is called up",
                            r -> r.pair().ride().id())
                    .head("RIDE"),
            Column.<Row>shown(
                    "DAY",
                    Unit.DAY,
                    (r, f) -> f.date(r.pair().ride().filed().ride().start())),
            Column.<Row>name(
                            "chain",
                            "it was ridden on; null when unknown",
                            r -> r.pair().ride().chain())
                    .head("CHAIN"),
            Column.<Row>name(
                            "product",
                            "on it",
                            r -> r.loss() == null
                                    ? null
                                    : r.loss().exposure().product().product())
                    .head("PRODUCT"),
            Column.figure(
                    "treatment_used",
                    Unit.SHARE,
                    4,
                    "of the treatment's likely life, in the middle of the ride",
                    r -> r.loss() == null
                            ? Double.NaN
                            : (r.loss().usedFrom() + r.loss().usedTo()) / 2),
            Column.<Row>shown(
                    "OF LIFE",
                    Unit.SHARE,
                    (r, f) -> r.loss() == null
                            ? ""
                            : Formatter.percent((r.loss().usedFrom() + r.loss().usedTo()) / 2)),
            Column.name(
                    "before", "the meter before the chain", r -> r.pair().pair().before()),
            Column.name("behind", "the meter behind it", r -> r.pair().pair().behind()),
            Column.<Row>figure(
                            "lag_s",
                            Unit.SECONDS,
                            0,
                            "by which the clock behind is ahead; null where none was found",
                            r -> over(r, Laid.Over::lagSeconds))
                    .head("LAG")
                    .as((r, f) -> over(r) == null ? "" : Formatter.signed(over(r, Laid.Over::lagSeconds), 0)),
            Column.<Row>figure(
                            "minutes",
                            Unit.COUNT,
                            0,
                            "compared; null where the ride is refused",
                            r -> over(r, Laid.Over::minutes))
                    .head("MIN")
                    .as((r, f) -> over(r) == null ? "" : Formatter.fixed(over(r, Laid.Over::minutes), 0)),
            Column.<Row>figure(
                    "before_watts",
                    Unit.WATTS,
                    2,
                    "mean before the chain; null where the ride is refused",
                    r -> over(r, Laid.Over::beforeWatts)),
            Column.<Row>figure(
                    "behind_watts",
                    Unit.WATTS,
                    2,
                    "mean behind it; null where the ride is refused",
                    r -> over(r, Laid.Over::behindWatts)),
            Column.<Row>figure(
                            "missing_pct",
                            Unit.PERCENT,
                            3,
                            "of the power before the chain that does not show behind it: the loss, and how far the meters"
                                    + " are off each other; null where the ride is refused",
                            r -> 100 * over(r, o -> -Math.expm1(o.logRatio())))
                    .head("MISSING %")
                    .as((r, f) ->
                            over(r) == null ? "" : Formatter.fixed(100 * over(r, o -> -Math.expm1(o.logRatio())), 2)),
            Column.list("doubts", "why it is left out or weighs little; empty for most", Row::doubts));

    /** The fields of all. */
    public static final Columns<PairsAnswer> FIELDS = Columns.of(
            Column.time(
                    "at",
                    "the instant up to which all is weighed",
                    a -> a.analysis().at()),
            Column.rows("pairs", "by start", ROWS, PairsAnswer::rows),
            Column.list("words", "what they tell together, and what not", PairsAnswer::words));

    /**
     * A ride.
     *
     * @param doubts why it is left out or weighs little
     */
    private record Row(RidePair pair, List<String> doubts) {
        @Nullable
        RideLoss loss() {
            return pair.loss();
        }
    }

    private static Laid.@Nullable Over over(Row r) {
        return r.pair().laid() instanceof Laid.Over over ? over : null;
    }

    private static double over(Row r, ToDoubleFunction<Laid.Over> figure) {
        Laid.Over over = over(r);
        return over == null ? Double.NaN : figure.applyAsDouble(over);
    }

    private List<Row> rows() {
        Pairs pairs = analysis.pairs();
        return pairs.rides().stream().map(p -> new Row(p, doubts(pairs, p))).toList();
    }

    private static List<String> doubts(Pairs pairs, RidePair p) {
        if (p.laid() instanceof Laid.Apart apart) {
            return List.of(PairWords.apart(apart));
        }
        if (p.loss() == null) {
            return List.of("left out: no chain is known, or two ran in it");
        }
        return p.seen()
                .map(s -> PairWords.doubts(pairs, s))
                .orElse(List.of("left out: nothing tells how it was pedalled"));
    }

    private List<String> words() {
        Pairs pairs = analysis.pairs();
        if (pairs.isEmpty()) {
            return List.of();
        }
        List<String> words = new ArrayList<>(PairWords.rises(analysis, pairs));
        words.addAll(PairWords.limits(pairs));
        return words;
    }

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        List<Row> rows = rows();
        if (rows.isEmpty()) {
            long twice = RidePairs.twice(analysis.rides()).size();
            out.line(
                    twice == 0
                            ? "no ride was recorded with power by two devices; chainage explain pairs says how to"
                            : Formatter.count(twice, "ride was", "rides were")
                                    + " recorded with power by two devices, and no meter is placed on either side of the"
                                    + " chain: chainage meter lists them");
            words().forEach(out::line);
            return;
        }
        out.table(ROWS.table(rows, format, r -> r.doubts().isEmpty() ? null : String.join("; ", r.doubts())));
        out.line();
        out.hint("LAG: seconds between the two clocks; MIN: minutes of steady pedalling used; MISSING: what the meter"
                + " behind the chain reads less than the one before it, per cent.");
        words().forEach(out::line);
    }
}
