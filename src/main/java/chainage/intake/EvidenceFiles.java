package chainage.intake;

import chainage.evidence.EvidenceException;
import chainage.evidence.EvidenceFile;
import chainage.evidence.RiderEvidence;
import chainage.quantity.PlainText;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;

/** Files of other riders' evidence. */
public final class EvidenceFiles {
    private EvidenceFiles() {}

    /** All riders of one; refused as a whole where a line of it cannot be. */
    public static List<RiderEvidence> read(Path file) {
        try {
            if (!Files.exists(file)) {
                throw new NoSuchFileException(file.toString());
            }
            try (TextLines lines = TextLines.of(file)) {
                return EvidenceFile.read(lines);
            }
        } catch (EvidenceException e) {
            throw new CliError(
                    ExitCode.REFUSED,
                    String.join(
                            "; ",
                            e.lines().stream()
                                    .map(l -> file + ":" + l.line() + ": " + PlainText.marked(l.what()))
                                    .toList()),
                    "nothing of it was taken; ask for the file anew");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
