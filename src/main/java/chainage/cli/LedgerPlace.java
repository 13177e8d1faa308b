package chainage.cli;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Where the ledger is: as told, else by the environment, else in the platform's data folder. */
final class LedgerPlace {
    private LedgerPlace() {}

    static Path find(@Nullable String told, Map<String, String> environment) {
        if (told != null && told.isBlank()) {
            throw CliError.usage("--ledger \"\" names no file", "give a path, or leave the option out");
        }
        String named = told != null ? told : environment.getOrDefault("CHAINAGE_LEDGER", "");
        try {
            return named.isEmpty() ? dataFolder(environment).resolve("ledger.sqlite") : Path.of(named);
        } catch (InvalidPathException e) {
            throw CliError.usage("\"" + named + "\" is no file name", "give another with --ledger");
        }
    }

    private static Path dataFolder(Map<String, String> environment) {
        String os = System.getProperty("os.name", "").toLowerCase(Locale.ROOT);
        String home = environment.getOrDefault("HOME", System.getProperty("user.home", "."));
        if (os.startsWith("windows")) {
            return Path.of(environment.getOrDefault("APPDATA", home), "chainage");
        }
        if (os.startsWith("mac")) {
            return Path.of(home, "Library", "Application Support", "chainage");
        }
        String data = environment.getOrDefault("XDG_DATA_HOME", "");
        return data.isEmpty() ? Path.of(home, ".local", "share", "chainage") : Path.of(data, "chainage");
    }
}
