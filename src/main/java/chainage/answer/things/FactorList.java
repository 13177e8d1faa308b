package chainage.answer.things;

import chainage.answer.Listing;
import chainage.exposure.Factors;
import chainage.exposure.Factors.Factor;
import chainage.quantity.Estimate;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import chainage.render.Unit;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
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
        private static String rounded(Factor f) {
            return Formatter.number(Math.rint(f.value() * 100) / 100);
        }

        private boolean isLearnt() {
            return learnt.value() != now.value();
        }

        private @Nullable String note() {
            List<String> words = new ArrayList<>();
            if (first) {
                words.add(now.meaning());
            }
            if (!figure(now).equals(figure(table))) {
                words.add("default: " + figure(table));
            }
            if (!rounded(learnt).equals(rounded(now))) {
                words.add("learnt: " + rounded(learnt));
            }
            return words.isEmpty() ? null : String.join("; ", words);
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
                    Column.figure(
                            "default",
                            Unit.COUNT,
                            ALL,
                            "the table's value",
                            r -> r.table().value()),
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
                    Column.<Row>id(
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
            "no factor has these words; chainage factors lists them all",
            "A word leaves only those that have it in key or meaning (chainage factors wet); to make one your own:"
                    + " chainage factors set KEY VALUE");

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
        Answer list = LIST.of(rows, format, Row::note);
        boolean logs = rows.stream().anyMatch(r -> r.now().unit().equals("log"));
        return new Answer() {
            @Override
            public Json json() {
                return list.json();
            }

            @Override
            public void print(Out out) {
                list.print(out);
                if (logs) {
                    out.hint("log: a spread as a natural logarithm; 0.5 is a factor of 1.65 up or down");
                }
            }
        };
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
                + (i == null
                        ? ""
                        : " (" + Formatter.number(threeFigures(i.low())) + "–"
                                + Formatter.number(threeFigures(i.high())) + ")");
    }

    /** As many figures as anybody reads of an end of an interval. */
    private static double threeFigures(double v) {
        return BigDecimal.valueOf(v).round(new MathContext(3)).doubleValue();
    }
}
