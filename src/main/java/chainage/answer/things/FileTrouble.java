package chainage.answer.things;

import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Json;
import chainage.render.Out;
import java.util.List;

/**
 * A file that could not be read as it should.
 *
 * @param file where it is
 * @param reason why
 * @param hint how to mend it; may be empty
 */
public record FileTrouble(String file, String reason, String hint) {
    /** What scripts get of those refused. */
    public static final Columns<List<FileTrouble>> FIELDS = Columns.of(Column.<List<FileTrouble>, FileTrouble>rows(
            "refused",
            "by path",
            Columns.of(
                    Column.<FileTrouble>name("file", "where it is", FileTrouble::file),
                    Column.<FileTrouble>word("reason", "why it cannot be read", FileTrouble::reason),
                    Column.<FileTrouble>word("mend", "what to do", FileTrouble::hint)),
            files -> files));

    /** Those refused, a line each. */
    public static Answer refused(List<FileTrouble> files) {
        return new Answer() {
            @Override
            public Json json() {
                return FIELDS.json(files);
            }

            @Override
            public void print(Out out) {
                if (files.isEmpty()) {
                    out.line("no file is refused");
                }
                files.forEach(f -> out.whole(f.line()));
            }
        };
    }

    /** In one line: where, what, how to mend. */
    public String line() {
        return file + ": " + reason + (hint.isEmpty() ? "" : "; " + hint);
    }
}
