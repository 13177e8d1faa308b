package chainage.answer.things;

import chainage.analysis.Analysis;
import chainage.analysis.DoubtfulDate;
import chainage.analysis.Outlier;
import chainage.analysis.Snapshot;
import chainage.answer.Contradictions;
import chainage.answer.OutingWords;
import chainage.answer.OutlierWords;
import chainage.attribution.Overlap;
import chainage.ledger.Ledger;
import chainage.ledger.Logbook;
import chainage.ledger.ToldTable;
import chainage.quantity.PlainText;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Whether the ledger is sound.
 *
 * @param problems what is wrong, a line each
 * @param notes what is only odd, a line each
 * @param mended what was damaged and is no longer in it, a line each
 * @param kept where the ledger lies as it was before; null when nothing was mended
 */
public record CheckAnswer(
        List<String> problems,
        List<String> notes,
        List<String> mended,
        @Nullable String kept) implements Answer {
    /** What scripts get. */
    public static final Columns<CheckAnswer> FIELDS = Columns.of(
            Column.<CheckAnswer>list("problems", "what is wrong, with what to do", CheckAnswer::problems),
            Column.<CheckAnswer>list("notes", "what is only odd", CheckAnswer::notes),
            Column.<CheckAnswer>list("mended", "what was damaged and is no longer in the ledger", CheckAnswer::mended),
            Column.name(
                    "kept",
                    "the ledger as it was before, under its new name; null where nothing was mended",
                    CheckAnswer::kept));

    /** Of a ledger in which nothing was mended. */
    public CheckAnswer(List<String> problems, List<String> notes) {
        this(problems, notes, List.of(), null);
    }

    /** The same after what was damaged was taken out. */
    public CheckAnswer after(List<String> mended, String kept) {
        return new CheckAnswer(problems, notes, mended, kept);
    }

    /**
     * Of a file whose facts can be read.
     *
     * @param broken what is wrong with the file itself, and what to do
     * @param facts all of them
     */
    public static CheckAnswer of(List<String> broken, Snapshot facts, Analysis analysis, Formatter format) {
        Ledger ledger = Ledger.of(facts.entries());
        Collection<String> chains = ledger.chains().keySet();
        List<String> problems = new ArrayList<>(of(broken).problems());
        problems.addAll(Contradictions.of(ledger, analysis, chains, format));
        analysis.others().unread().stream()
                .distinct()
                .forEach(as -> problems.add(
                        "what was brought in as \"" + as + "\" is no evidence, and left out; to bring it in"
                                + " anew: chainage evidence remove " + PlainText.typed(as)
                                + ", then chainage evidence add FILE --as "
                                + PlainText.typed(as)));
        return new CheckAnswer(problems, notes(facts, analysis, format));
    }

    /**
     * What to look over, though it is no fault.
     *
     * @param facts all of them
     */
    public static List<String> notes(Snapshot facts, Analysis analysis, Formatter format) {
        List<String> notes = new ArrayList<>();
        Outlier.lives(analysis, analysis.ledger().chains().keySet())
                .forEach(o -> notes.add(OutlierWords.of(o, format)));
        Overlap.of(analysis.ledger(), analysis.rides()).stream()
                .filter(Overlap::stated)
                .forEach(o -> notes.add(OutingWords.of(o, format)));
        notes.addAll(OutingWords.disagreements(analysis, format));
        DoubtfulDate.of(facts.rides(), analysis.at()).forEach(d -> notes.add(words(d, format)));
        Logbook.of(facts.entries()).values().stream()
                .filter(Logbook::isMissed)
                .forEach(l -> notes.add("the logbook " + l.file()
                        + " was missing, or no logbook any more, when it was last looked for; what it stated stays"));
        ToldTable.of(facts.entries()).stream()
                .filter(ToldTable::missed)
                .forEach(t -> notes.add(
                        "the table " + t.table() + " was missing when it was last looked for; what it told stays"));
        return notes;
    }

    /** Of a file whose facts cannot be read. */
    public static CheckAnswer of(List<String> broken) {
        return new CheckAnswer(broken.stream().map(t -> "the file: " + t).toList(), List.of());
    }

    private static String words(DoubtfulDate d, Formatter format) {
        String id = d.ride().id();
        return "ride " + id + " is dated " + format.time(d.ride().ride().start()) + ", "
                + (d.alone() ? "years from all others" : "in the future")
                + ": a device's clock may have been wrong; to leave it out: chainage assign " + id + " --not-a-ride";
    }

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        mended.forEach(m -> out.line("taken out: " + m));
        if (kept != null) {
            out.whole("the ledger as it was is kept as " + kept);
        }
        if (problems.isEmpty()) {
            out.line(
                    "nothing in the ledger is damaged, and no facts contradict each other (files that could not be read:"
                            + " chainage refused)");
        }
        out.lines(problems);
        notes.forEach(n -> out.line("note: " + n));
    }
}
