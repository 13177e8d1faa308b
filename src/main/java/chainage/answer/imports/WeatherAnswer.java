package chainage.answer.imports;

import chainage.answer.ChangeAnswer;
import chainage.render.Answer;
import chainage.render.Column;
import chainage.render.Columns;
import chainage.render.Formatter;
import chainage.render.Json;
import chainage.render.Out;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * What files of weather records brought.
 *
 * @param files in the order in which they were named
 * @param changes what they moved, a line each
 * @param placed false where the records were given no place
 * @param dryRun whether nothing was written
 */
public record WeatherAnswer(List<Read> files, List<String> changes, boolean placed, boolean dryRun) implements Answer {
    /**
     * A file.
     *
     * @param read lines that tell something
     * @param kept records in them
     * @param bad lines that cannot be used
     * @param added records that were new
     * @param entry the fact that holds them; null when nothing was new
     */
    public record Read(
            String file,
            long read,
            long kept,
            long bad,
            long added,
            @Nullable Long entry) {}

    private static final Columns<Read> FILES = Columns.of(
            Column.<Read>name("file", "as it was named", Read::file),
            Column.<Read>count("read", "lines that tell something", Read::read),
            Column.<Read>count("kept", "records in them", Read::kept),
            Column.<Read>count("bad", "lines that cannot be used", Read::bad),
            Column.<Read>count("added", "records that were new", Read::added),
            Column.<Read>count("entry", "the fact that holds them; null when nothing was new", Read::entry));

    /** What scripts get. */
    public static final Columns<WeatherAnswer> FIELDS = Columns.of(
            Column.<WeatherAnswer, Read>rows("files", "as they were named", FILES, WeatherAnswer::files),
            Column.<WeatherAnswer>list("changes", "what they moved, before → after", WeatherAnswer::changes),
            Column.<WeatherAnswer>truth("dry_run", "whether nothing was written", WeatherAnswer::dryRun));

    /** True when no line had to be left out. */
    public boolean whole() {
        return files.stream().allMatch(f -> f.bad() == 0);
    }

    private List<Long> entries() {
        return files.stream().map(Read::entry).filter(Objects::nonNull).toList();
    }

    @Override
    public Json json() {
        return FIELDS.json(this);
    }

    @Override
    public void print(Out out) {
        for (Read f : files) {
            out.whole(f.file() + ": " + Formatter.count(f.kept(), "record", "records") + " read, "
                    + (dryRun ? "nothing written (dry run)" : f.added() + " new")
                    + (f.bad() > 0 ? ", " + Formatter.count(f.bad(), "line", "lines") + " left out" : ""));
        }
        changes.forEach(line -> out.line(2, line));
        if (!entries().isEmpty()) {
            if (!placed) {
                out.hint("No place was given, so these records hold wherever you ride; to say where:"
                        + " --station LAT,LON");
            }
            out.hint(ChangeAnswer.undo(entries()));
        }
    }
}
