package chainage.cli;

import chainage.answer.things.FileTrouble;
import chainage.command.Question;
import chainage.intake.RefusedFiles;
import chainage.render.Answer;
import chainage.render.Columns;
import chainage.store.LedgerFile;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import picocli.CommandLine.Command;

@Command(
        name = "refused",
        description = {
            "Files that could not be read, why, and how to mend them. Each is tried again when it changes, and one whose"
                    + " date is ahead of the clock when it no longer is."
        },
        footer = {"Example:", "  chainage refused"})
final class RefusedCommand extends Question {
    @Override
    public List<Columns<?>> fields() {
        return List.of(FileTrouble.FIELDS);
    }

    @Override
    public Answer answer() {
        if (!context().written()) {
            return FileTrouble.refused(List.of());
        }
        try (LedgerFile file = context().openToRead()) {
            return FileTrouble.refused(RefusedFiles.of(file, file.load()));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
