package chainage.answer.page;

import chainage.analysis.Analysis;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * What the page is made from.
 *
 * @param analysis all figures
 * @param refused files that could not be read, a line each
 * @param notes what to look over, a line each
 * @param version the program's name and version
 * @param missing where there is no ledger yet; null where there is one
 */
public record PageSources(
        Analysis analysis,
        List<String> refused,
        List<String> notes,
        String version,
        @Nullable String missing) {
    public PageSources {
        refused = List.copyOf(refused);
        notes = List.copyOf(notes);
    }

    /** The same with more files that could not be read. */
    public PageSources refusing(List<String> more) {
        return new PageSources(
                analysis, Stream.concat(refused.stream(), more.stream()).toList(), notes, version, missing);
    }
}
