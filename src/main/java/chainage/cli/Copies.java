package chainage.cli;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Makes files beside the ledger, and never over another file. */
final class Copies {
    private Copies() {}

    /** What writes a file. */
    interface Making {
        void at(Path target) throws IOException;
    }

    static void make(Path target, Making making) throws IOException {
        Path folder = target.toAbsolutePath().getParent();
        if (folder == null || !Files.isDirectory(folder)) {
            throw new CliError(
                    ExitCode.CANNOT_CREATE,
                    "\"" + target + "\" lies in no folder that is there",
                    "make the folder first, or name another");
        }
        try {
            making.at(target);
        } catch (FileAlreadyExistsException e) {
            throw new CliError(
                    ExitCode.CANNOT_CREATE,
                    "\"" + target + "\" is there already",
                    "nothing was overwritten; name another file");
        }
    }
}
