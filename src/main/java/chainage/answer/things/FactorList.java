package chainage.answer.things;

import chainage.answer.Listing;
import chainage.exposure.Factors;
import chainage.exposure.Factors.Factor;
import chainage.quantity.Estimate;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Unit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** The numbers that everything starts from. */
public final class FactorList {
    /** The decimals that a factor is printed with for scripts: all that anybody would write. */
    private static final int ALL = 9;

    /**
     * A factor.
     *
     * @param now in force
     * @param table as the program brings it along
     * @param learnt what answers go by, by what your treatments and other riders' have shown
     * @param first whether the one before has another meaning
     */
    public record Row(Factor now, Factor table, Factor learnt, boolean first) {
        private boolean isLearnt() {
            return learnt.value() != now.value();
        }

        private @Nullable String note() {
            String meaning = first ? now.meaning() : "";
            String learntWords = isLearnt() ? "learnt: " + Formatter.number(Math.rint(learnt.value() * 100) / 100) : "";
            return meaning.isEmpty() && learntWords.isEmpty()
                    ? null
                    : String.join(
                            "; ",
                            Stream.of(meaning, learntWords)
                                    .filter(w -> !w.isEmpty())
                                    .toList());
        }
    }

    private static final Columns<Estimate> INTERVAL = Columns.of(
            Column.<Estimate>figure("low", Unit.COUNT, ALL, "one in ten is lower", Estimate::low),
            Column.<Estimate>figure("high", Unit.COUNT, ALL, "one in ten is higher", Estimate::high));

    public static final Listing<Row> LIST = new Listing<>(
            "factors",
            "as in the table",
            Columns.of(
                    Column.<Row>id("key", "by which it is set", r -> r.now().key())
                            .head("FACTOR"),
                    Column.<Row>figure(
                                    "value",
                                    Unit.COUNT,
                                    ALL,
                                    "in force, in its unit",
                                    r -> r.now().value())
                            .head("VALUE")
                            .as((r, format) -> figure(r.now())),
                    Column.<Row, Estimate>object(
                            "interval",
                            "80 % of it; null for one without",
                            INTERVAL,
                            r -> r.now().interval()),
                    Column.<Row>figure(
                                    "default",
                                    Unit.COUNT,
                                    ALL,
                                    "the table's value",
                                    r -> r.table().value())
                            .head("DEFAULT")
                            .as((r, format) -> figure(r.table())),
                    Column.<Row, Estimate>object(
                            "default_interval",
                            "the table's; null for one without",
                            INTERVAL,
                            r -> r.table().interval()),
                    Column.<Row>id(
                                    "unit",
                                    "of the value; x for a ratio",
                                    r -> r.now().unit())
                            .head("UNIT")
                            .as((r, format) -> unit(r.now())),
                    Column.<Row>word(
                                    "mark",
                                    "what the value rests on",
                                    r -> r.now().mark())
                            .head("MARK"),
                    Column.word(
                            "default_mark",
                            "what the table's rests on",
                            r -> r.table().mark()),
                    Column.word("meaning", "what it stands for", r -> r.now().meaning()),
                    Column.figure(
                            "learnt",
                            Unit.COUNT,
                            4,
                            "what answers go by, by what your treatments and other riders' have shown; null where nothing is"
                                    + " learnt",
                            r -> r.isLearnt() ? r.learnt().value() : Double.NaN)),
            "no factor has these words; chainage factors lists them all");

    private FactorList() {}

    /**
     * Factors whose key or meaning holds every one of some words.
     *
     * @param table as the program brings it along
     * @param now with the rider's own values
     * @param learnt the same with what is learnt of roads
     */
    public static Answer of(Factors table, Factors now, Factors learnt, List<String> words, Formatter format) {
        List<Row> rows = new ArrayList<>();
        String meaning = "";
        for (Factor row : table.all()) {
            Factor f = now.factor(row.key());
            String text = (f.key() + " " + f.meaning()).toLowerCase(Locale.ROOT);
            if (words.stream().allMatch(w -> text.contains(w.toLowerCase(Locale.ROOT)))) {
                rows.add(new Row(f, row, learnt.factor(row.key()), !f.meaning().equals(meaning)));
                meaning = f.meaning();
            }
        }
        return LIST.of(rows, format, Row::note);
    }

    /** A factor's unit as a rider reads it. */
    public static String unit(Factor f) {
        return switch (f.unit()) {
            case "x" -> "times";
            case "-" -> "";
            default -> f.unit();
        };
    }

    /** A factor's value, with its interval where it has one. */
    public static String figure(Factor f) {
        Estimate i = f.interval();
        return Formatter.number(f.value())
                + (i == null ? "" : " (" + Formatter.number(i.low()) + "–" + Formatter.number(i.high()) + ")");
    }
}
