package chainage.cli;

import chainage.render.Json;
import chainage.store.LedgerFile;
import chainage.store.Source;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Command;

@Command(
        name = "refused",
        description = {
            "Files that could not be read, why, and how to mend them. Each is tried again when it changes, and one whose"
                    + " date is ahead of the clock when it no longer is."
        },
        footer = {"Example:", "  chainage refused"})
final class RefusedCommand extends Action {
    /** True when the file, or an archive that it is an entry of, is still on the disk. */
    static boolean isThere(Source source) {
        String path = source.path();
        for (int end = path.length(); end > 0; end = path.lastIndexOf("!/", end - 1)) {
            if (Files.exists(Path.of(path.substring(0, end)))) {
                return true;
            }
        }
        return false;
    }

    @Override
    public Integer call() {
        CommandContext context = context();
        List<Source> refused = List.of();
        if (context.written()) {
            try (LedgerFile file = context.openToRead()) {
                refused =
                        file.refused().stream().filter(RefusedCommand::isThere).toList();
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
        if (context.json()) {
            List<Json> list = new ArrayList<>();
            refused.forEach(s -> list.add(
                    new Json().put("file", s.path()).put("reason", s.reason()).put("mend", s.mend())));
            context.out().json(new Json().put("refused", list));
        } else if (refused.isEmpty()) {
            context.out().line("no file is refused");
        } else {
            refused.forEach(s -> context.out().whole(ImportCommand.line(s.path(), s.reason(), s.mend())));
        }
        return ExitCode.OK.code();
    }
}
