package chainage.store;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

/** Files made from the ledger that are not the ledger: readable by their owner alone, since they tell of rides. */
public final class PrivateFile {
    private PrivateFile() {}

    /**
     * Writes a text as UTF-8 in place of what is there, if anything; the file appears whole, or is left as it was.
     *
     * @throws LedgerException when the folder cannot be written
     */
    public static void replace(Path target, String text) throws IOException {
        Disk.place(
                target,
                part -> Files.write(part, text.getBytes(StandardCharsets.UTF_8)),
                part -> Files.move(part, target, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE));
    }
}
