package chainage.cli;

import chainage.analysis.Snapshot;
import chainage.answer.things.FileTrouble;
import chainage.ledger.Logbook;
import chainage.render.Answer;
import chainage.render.Columns;
import chainage.store.LedgerFile;
import chainage.store.Source;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.stream.Stream;
import picocli.CommandLine.Command;

@Command(
        name = "refused",
        description = {
            "Files that could not be read, why, and how to mend them. Each is tried again when it changes, and one whose"
                    + " date is ahead of the clock when it no longer is."
        },
        footer = {"Example:", "  chainage refused"})
final class RefusedCommand extends Question {
    /** True when the file, or an archive that it is an entry of, is still on the disk. */
    static boolean isThere(Source source) {
        return LogbookImport.isThere(source.path());
    }

    /** Files and lines of logbooks that are refused and still there, by path. */
    static List<FileTrouble> all(LedgerFile file, Snapshot facts) throws IOException {
        Stream<FileTrouble> files = file.refused().stream()
                .filter(RefusedCommand::isThere)
                .map(s -> new FileTrouble(s.path(), s.reason(), s.hint()));
        Stream<FileTrouble> lines = Logbook.of(facts.entries()).values().stream()
                .filter(l -> LogbookImport.isThere(l.file()))
                .flatMap(l ->
                        l.refused().stream().map(r -> new FileTrouble(l.file() + ":" + r.number(), r.reason(), "")));
        return Stream.concat(files, lines).toList();
    }

    @Override
    List<Columns<?>> fields() {
        return List.of(FileTrouble.FIELDS);
    }

    @Override
    Answer answer() {
        if (!context().written()) {
            return FileTrouble.refused(List.of());
        }
        try (LedgerFile file = context().openToRead()) {
            return FileTrouble.refused(all(file, file.load()));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
