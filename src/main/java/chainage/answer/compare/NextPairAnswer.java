package chainage.answer.compare;

import chainage.analysis.Analysis;
import chainage.analysis.MeasuredComparison;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Json;
import chainage.render.Out;
import chainage.render.Unit;

/**
 * Which chain to ride next by both power meters.
 *
 * @param analysis it is taken from
 */
public record NextPairAnswer(Analysis analysis) implements Answer {
    /** The fields of all. */
    public static final Columns<NextPairAnswer> FIELDS = Columns.of(
            Column.name(
                    "next",
                    "the chain whose ride tells the most; null where none has been measured yet",
                    a -> MeasuredComparison.next(a.analysis())
                            .map(n -> n.chain().chain())
                            .orElse(null)),
            Column.figure(
                    "narrower",
                    Unit.SHARE,
                    4,
                    "of what is unknown that it takes away",
                    a -> MeasuredComparison.next(a.analysis())
                            .map(MeasuredComparison.Next::narrower)
                            .orElse(Double.NaN)),
            Column.word("words", "the same as a sentence", a -> MeasuredWords.next(a.analysis())));

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        out.line(MeasuredWords.next(analysis));
    }
}
