package chainage.answer.road;

import chainage.analysis.Analysis;
import chainage.answer.Reasons;
import chainage.answer.RoadNames;
import chainage.answer.Safety;
import chainage.attribution.AttributedRide;
import chainage.condition.Condition;
import chainage.condition.Said;
import chainage.exposure.CountedRide;
import chainage.ledger.Grit;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import chainage.render.Unit;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * The roads under some rides, with all that was said of them.
 *
 * @param rides that count
 */
public record RoadAnswer(Analysis analysis, List<AttributedRide> rides, Formatter format) implements Answer {
    /** A piece of evidence in words; the first of several counts. */
    private record Word(String evidence, String says, String why, boolean counts) {
        static <T> List<Word> of(List<Said<T>> said, Function<T, String> value, Formatter format) {
            List<Word> words = new ArrayList<>();
            for (Said<T> s : said) {
                words.add(new Word(
                        s.evidence().word(), value.apply(s.value()), Reasons.of(s.why(), format), words.isEmpty()));
            }
            return words;
        }
    }

    private record Row(AttributedRide ride, Condition road, Formatter format) {
        List<Word> moisture() {
            return Word.of(road.wetness(), RoadNames::wetness, format);
        }

        List<Word> grit() {
            return Word.of(road.grits(), Grit::word, format);
        }
    }

    private static final Columns<Word> WORDS = Columns.of(
            Column.<Word>word("evidence", "its kind", Word::evidence),
            Column.<Word>word("says", "of the road", Word::says),
            Column.<Word>word("why", "what it rests on", Word::why),
            Column.<Word>truth("counts", "false where a stronger one overrules it", Word::counts));

    private static final Columns<Row> ROWS = Columns.of(
            Column.<Row>id("id", "by which the ride is called up", r -> r.ride().id()),
            Column.time("start", "when it began", r -> r.ride().filed().ride().start()),
            Column.word(
                    "moisture",
                    "indoor, dry, damp or wet",
                    r -> r.road().moisture().word()),
            Column.word("grit", "clean, dusty or gritty", r -> r.road().grit().word()),
            Column.figure(
                    "wet_share",
                    Unit.SHARE,
                    3,
                    "of the distance on a wet road",
                    r -> r.road().wetShare()),
            Column.figure(
                    "damp_share",
                    Unit.SHARE,
                    3,
                    "of the distance on a damp road",
                    r -> r.road().dampShare()),
            Column.rows("moisture_said", "the evidence on the moisture, strongest first", WORDS, Row::moisture),
            Column.rows("grit_said", "the evidence on the grit, strongest first", WORDS, Row::grit));

    /** What scripts get. */
    public static final Columns<RoadAnswer> FIELDS =
            Columns.of(Column.<RoadAnswer, Row>rows("rides", "by start", ROWS, RoadAnswer::rows));

    private List<Row> rows() {
        return rides.stream()
                .map(r -> new Row(r, Objects.requireNonNull(counted(r), r.id()).condition(), format))
                .toList();
    }

    private @Nullable CountedRide counted(AttributedRide r) {
        return analysis.exposures().counted().get(r.id());
    }

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        for (Row row : rows()) {
            AttributedRide r = row.ride();
            out.line("Ride " + r.id() + ", " + format.time(r.filed().ride().start()) + ", "
                    + format.distance(analysis.exposures().metresOf(r)) + (r.bike() == null ? "" : " on " + r.bike())
                    + ": " + RoadNames.words(row.road()));
            print(out, "moisture", row.moisture());
            print(out, "grit", row.grit());
            out.hint("  to overrule: chainage tag " + r.id() + " WORD");
        }
        if (rows().stream().anyMatch(r -> r.road().grits().get(0).why().salt())) {
            out.line(Safety.SALT);
        }
    }

    private static void print(Out out, String what, List<Word> words) {
        for (Word w : words) {
            out.line(w.counts() ? 2 : 4, (w.counts() ? what + " " : "not used: ") + w.says() + " – " + w.why());
        }
    }
}
