package chainage.cli;

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
            Stream<FileTrouble> files =
                    file.refused().stream().filter(RefusedCommand::isThere).map(RefusedCommand::trouble);
            Stream<FileTrouble> lines = Logbook.of(file.load().entries()).values().stream()
                    .filter(l -> LogbookImport.isThere(l.file()))
                    .flatMap(l -> l.refused().stream()
                            .map(r -> new FileTrouble(l.file() + ":" + r.number(), r.reason(), "")));
            return FileTrouble.refused(Stream.concat(files, lines).toList());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static FileTrouble trouble(Source source) {
        return new FileTrouble(source.path(), source.reason(), source.hint());
    }
}
