package chainage.answer;

import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Json;
import chainage.render.Out;
import java.util.List;
import java.util.stream.Collectors;

/**
 * What a change wrote and moved.
 *
 * @param entries numbers of the new facts; empty for a dry run
 * @param said what was stated, a line each
 * @param changes what moved, a line each
 * @param dryRun whether nothing was written
 */
public record ChangeAnswer(List<Long> entries, List<String> said, List<String> changes, boolean dryRun)
        implements Answer {
    /** Numbers that run on are named by the first and the last where there are more than so many. */
    private static final int MANY = 5;

    /** What scripts get. */
    public static final Columns<ChangeAnswer> FIELDS = Columns.of(
            Column.<ChangeAnswer>list("entries", "numbers of the new facts", ChangeAnswer::entries),
            Column.<ChangeAnswer>list("said", "what was stated", ChangeAnswer::said),
            Column.<ChangeAnswer>list("changes", "what moved, before → after", ChangeAnswer::changes),
            Column.<ChangeAnswer>truth("dry_run", "whether nothing was written", ChangeAnswer::dryRun));

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        DryRun.head(dryRun, out);
        out.lines(said);
        changes.forEach(line -> out.line(2, line));
        if (!dryRun) {
            out.hint(undo(entries));
        }
    }

    /** How facts are taken back. */
    public static String undo(List<Long> entries) {
        int last = entries.size() - 1;
        boolean range = last > MANY && entries.get(last) - entries.get(0) == last;
        return "to take it back: chainage undo "
                + (range
                        ? entries.get(0) + ".." + entries.get(last)
                        : entries.stream().map(String::valueOf).collect(Collectors.joining(" ")));
    }
}
