package chainage.host;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Where the ledger is: as told, else by the environment, else in the platform's data folder. */
public final class LedgerPlace {
    private LedgerPlace() {}

    /**
     * The ledger's place; nothing need be there.
     *
     * @param told null when nothing was
     * @throws java.nio.file.InvalidPathException for what cannot be a file's name
     */
    public static Path find(@Nullable String told, Map<String, String> environment) {
        String named = told != null ? told : environment.getOrDefault("CHAINAGE_LEDGER", "");
        return named.isEmpty() ? dataFolder(environment).resolve("ledger.sqlite") : Path.of(named);
    }

    private static Path dataFolder(Map<String, String> environment) {
        String os = System.getProperty("os.name", "").toLowerCase(Locale.ROOT);
        Machine machine = new Machine(environment);
        if (os.startsWith("windows")) {
            return machine.folder("APPDATA", "").resolve("chainage");
        }
        if (os.startsWith("mac")) {
            return machine.home().resolve("Library/Application Support/chainage");
        }
        return machine.folder("XDG_DATA_HOME", ".local/share").resolve("chainage");
    }
}
