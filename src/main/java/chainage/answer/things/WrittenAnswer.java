package chainage.answer.things;

import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Json;
import chainage.render.Out;
import org.jspecify.annotations.Nullable;

/**
 * A file that was written.
 *
 * @param bytes its length
 * @param items how many dates or lines it holds; null for a whole that is not counted
 * @param opened whether it is shown now; null for what is no page
 */
public record WrittenAnswer(
        String file,
        long bytes,
        @Nullable Integer items,
        @Nullable Boolean opened) implements Answer {
    /** What scripts get. */
    public static final Columns<WrittenAnswer> FIELDS = Columns.of(
            Column.<WrittenAnswer>name("file", "as it was named", WrittenAnswer::file),
            Column.<WrittenAnswer>count("bytes", "its length", WrittenAnswer::bytes),
            Column.<WrittenAnswer>count(
                    "items",
                    "how many dates or lines it holds; null for a page, a copy or an export",
                    WrittenAnswer::items),
            Column.<WrittenAnswer>truth(
                    "opened", "whether it is shown now; null for what is no page", WrittenAnswer::opened));

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        out.line("written: " + file + (items == null ? "" : " (" + items + ")"));
    }
}
