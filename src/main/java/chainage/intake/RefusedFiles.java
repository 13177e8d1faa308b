package chainage.intake;

import chainage.analysis.Snapshot;
import chainage.answer.things.FileTrouble;
import chainage.bookkeeping.LogbookImport;
import chainage.ledger.Logbook;
import chainage.store.LedgerFile;
import chainage.store.Source;
import java.io.IOException;
import java.util.List;
import java.util.stream.Stream;

/** Files that could not be read, as far as they are still there. */
public final class RefusedFiles {
    private RefusedFiles() {}

    /** True when the file, or an archive that it is an entry of, is still on the disk. */
    static boolean isThere(Source source) {
        return LogbookImport.isThere(source.path());
    }

    /** Files and lines of logbooks that are refused and still there, by path. */
    public static List<FileTrouble> of(LedgerFile file, Snapshot facts) throws IOException {
        Stream<FileTrouble> files = file.refused().stream()
                .filter(RefusedFiles::isThere)
                .map(s -> new FileTrouble(s.path(), s.reason(), s.hint()));
        Stream<FileTrouble> lines = Logbook.of(facts.entries()).values().stream()
                .filter(l -> LogbookImport.isThere(l.file()))
                .flatMap(l ->
                        l.refused().stream().map(r -> new FileTrouble(l.file() + ":" + r.number(), r.reason(), "")));
        return Stream.concat(files, lines).toList();
    }
}
