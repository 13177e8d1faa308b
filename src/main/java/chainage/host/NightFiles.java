package chainage.host;

import chainage.store.file.WholeFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;

/**
 * What the nightly job keeps beside the ledger, for its owner alone: nothing of it is needed, and nothing is lost when it
 * is deleted, but that what was told is told once more.
 *
 * @param folder may not be there yet
 */
public record NightFiles(Path folder) {
    /** Bytes after which the log makes room; our choice: some years of quiet nights. */
    private static final long LOG_BYTES = 1 << 20;

    private static final String FIRST = "chainage nightly, told of ";

    public static NightFiles of(Machine machine) {
        return new NightFiles(machine.folder("XDG_STATE_HOME", ".local/state").resolve("chainage"));
    }

    /** All that each night did. */
    public Path log() {
        return folder.resolve("nightly.log");
    }

    /** Where a scheduler that keeps no journal puts what is printed, and what Java itself has to say. */
    public Path printed() {
        return folder.resolve("nightly.out");
    }

    private Path older() {
        return folder.resolve("nightly.log.1");
    }

    private Path told() {
        return folder.resolve("nightly.told");
    }

    /** Adds to the log. */
    public void log(String text) throws IOException {
        PrivateFile.add(log(), text, LOG_BYTES, older());
    }

    /** Keys of what the rider was told last about a ledger; none where that is not known. */
    public List<String> told(Path ledger) throws IOException {
        try {
            List<String> lines = Files.readAllLines(told());
            return !lines.isEmpty() && lines.get(0).equals(FIRST + ledger)
                    ? List.copyOf(lines.subList(1, lines.size()))
                    : List.of();
        } catch (NoSuchFileException e) {
            return List.of();
        }
    }

    /** Keeps the keys of what the rider was told. */
    public void keepTold(Path ledger, List<String> keys) throws IOException {
        Files.createDirectories(folder);
        WholeFile.replace(told(), FIRST + ledger + "\n" + String.join("\n", keys) + (keys.isEmpty() ? "" : "\n"));
    }

    /** Deletes them, and the folder where it is empty then. */
    public void remove() throws IOException {
        boolean any = false;
        for (Path file : List.of(log(), older(), printed(), told())) {
            any |= Files.deleteIfExists(file);
        }
        if (any) {
            Machine.deleteEmpty(folder);
        }
    }
}
