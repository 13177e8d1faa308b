package chainage.answer.page;

import chainage.analysis.Analysis;
import chainage.answer.Safety;
import chainage.page.Block;
import chainage.page.Page;
import chainage.page.RowPlot;
import chainage.quantity.Estimate;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Unit;
import chainage.standing.Dates;
import chainage.standing.Standing;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/** The coming weeks: what is to be done to which chain, and when. */
final class WeeksPart {
    /** Further ahead a drawing says nothing; the table has it. */
    private static final double WEEKS_DRAWN = 26;

    private final Analysis analysis;
    private final Formatter format;

    WeeksPart(Analysis analysis, Formatter format) {
        this.analysis = analysis;
        this.format = format;
    }

    /**
     * Something to do.
     *
     * @param when null when no date can be given
     * @param now true when it is due
     */
    private record Task(
            Standing chain, String what, @Nullable Dates when, boolean now) {
        Instant order() {
            return now || beforeUse(this) ? Instant.MIN : when == null ? Instant.MAX : when.likely();
        }
    }

    private static final Columns<Task> TASKS = Columns.of(
            Column.<Task>shown("When", Unit.DAY, WeeksPart::when),
            Column.<Task>shown(
                    "What",
                    Unit.NAME,
                    (t, f) -> t.what() + " " + t.chain().chain() + (t.chain().bike() == null ? " (shelf)" : "")),
            Column.<Task>shown("Early", Unit.DAY, (t, f) -> end(t, Dates::low, f)),
            Column.<Task>shown("Late", Unit.DAY, (t, f) -> end(t, Dates::high, f)));

    Page.Part part() {
        List<Task> tasks = tasks();
        List<Block> blocks = new ArrayList<>();
        if (tasks.isEmpty()) {
            blocks.add(Block.words("Nothing has a date: no chain was ridden lately."));
        }
        List<RowPlot.Row> rows = rows(tasks);
        if (!rows.isEmpty()) {
            double now = format.day(analysis.at());
            double last = rows.stream()
                    .flatMap(r -> r.marks().stream())
                    .mapToDouble(m -> m.at().high())
                    .max()
                    .orElse(now);
            blocks.add(new Block.Figure(new RowPlot(
                            rows, now, Math.min(last, now + 7 * WEEKS_DRAWN) + 7, null, "", true, "")
                    .plot(
                            "The coming weeks",
                            "From " + format.date(analysis.at())
                                    + " on: circle, treat; diamond, replace; lines, ranges that hold 8 times in 10.")));
        }
        if (!tasks.isEmpty()) {
            blocks.add(new Block.Fold(
                    "All dates",
                    List.of(
                            new Block.Table(TASKS.grid(
                                    "What to do, soonest first; early and late span four cases out of five",
                                    tasks,
                                    format,
                                    false)),
                            Block.note("Dates go by each bike's last 52 weeks, or as many as there are. A chain on the"
                                    + " shelf has no date: it is treated before it goes back on."))));
        }
        blocks.add(new Block.Words(Block.Tone.CARE, Safety.TREATING));
        blocks.add(new Block.Words(Block.Tone.CARE, Safety.REPLACING));
        return new Page.Part(
                "weeks",
                "Coming weeks",
                List.of(),
                List.of(new Page.Section("weeks-list", "What comes when", "", blocks)));
    }

    private List<Task> tasks() {
        List<Task> tasks = new ArrayList<>();
        for (Standing s : analysis.standings()) {
            boolean gone = s.wear().used() >= 1;
            tasks.add(new Task(s, "replace", s.replaceOn(), gone));
            tasks.add(new Task(
                    s, "treat", s.treatBy(), s.bike() != null && (s.treatment().used() >= 1 || s.dueBeforeNextRide())));
        }
        tasks.removeIf(t -> !t.now() && t.when() == null && !beforeUse(t));
        tasks.sort(Comparator.comparing(Task::order)
                .thenComparing(t -> t.chain().chain())
                .thenComparing(Task::what));
        return tasks;
    }

    private static boolean beforeUse(Task t) {
        return t.what().equals("treat") && t.chain().dueBeforeUse();
    }

    private static String when(Task t, Formatter format) {
        Dates d = t.when();
        return t.now() && t.chain().dueBeforeNextRide() && t.what().equals("treat")
                ? "before its next ride"
                : t.now() ? "now" : beforeUse(t) ? "before use" : d == null ? "–" : format.date(d.likely());
    }

    private static String end(Task t, Function<Dates, Instant> end, Formatter format) {
        Dates d = t.when();
        return d == null || t.now() ? "–" : format.date(end.apply(d));
    }

    private List<RowPlot.Row> rows(List<Task> tasks) {
        List<RowPlot.Row> rows = new ArrayList<>();
        double now = format.day(analysis.at());
        for (Task t : tasks) {
            Dates d = t.when();
            if (d != null && !t.now() && format.day(d.likely()) <= now + 7 * WEEKS_DRAWN) {
                Estimate at = new Estimate(format.day(d.low()), format.day(d.likely()), format.day(d.high()));
                rows.add(new RowPlot.Row(
                        t.what() + " " + t.chain().chain(),
                        format.date(d.likely()),
                        List.of(new RowPlot.Mark(t.what().equals("replace"), at, format.date(d.likely())))));
            }
        }
        return rows;
    }
}
