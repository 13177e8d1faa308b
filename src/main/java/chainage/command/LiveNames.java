package chainage.command;

import chainage.host.LedgerPlace;
import chainage.host.Terminal;
import chainage.ledger.Ledger;
import chainage.recall.Memory;
import chainage.render.Formatter;
import chainage.store.LedgerFile;
import chainage.typed.ExitCode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What a shell asks for while a rider types: {@code complete KIND [LEDGER]} answers names from the ledger, one a line, with a
 * few words on it behind a tabulator. All of them are read at once and remembered as long as the ledger lies there as it
 * does. Nothing is parsed or derived, since a rider waits for it at each press of a key; and nothing is said of what goes
 * wrong, since it would stand in the line that is typed.
 */
public final class LiveNames {
    public static final String COMMAND = "complete";

    public static final String BIKE = "bike";
    public static final String CHAIN = "chain";
    public static final String PRODUCT = "product";
    public static final String RIDE = "ride";

    /** So many rides fit on a screen; our choice. */
    private static final int RIDES = 40;

    private LiveNames() {}

    public static boolean asked(String... args) {
        return args.length > 1 && args[0].equals(COMMAND);
    }

    /** Prints them; nothing where there is no ledger. */
    public static int answer(Terminal terminal, String... args) {
        try {
            @Nullable String typed = args.length > 2 && !args[2].isBlank() ? args[2] : null;
            Path ledger = LedgerPlace.find(typed, terminal.environment());
            if (Files.exists(ledger)) {
                String mark = args[1] + "\t";
                new Memory(terminal.environment(), ledger, zone(terminal).getId())
                        .names(() -> all(ledger, zone(terminal))).stream()
                                .filter(line -> line.startsWith(mark))
                                .forEach(line -> terminal.out().print(line.substring(mark.length()) + "\n"));
            }
        } catch (IOException | IllegalArgumentException e) {
            // Said when the command itself is carried out.
        }
        terminal.out().flush();
        return ExitCode.OK.code();
    }

    private static ZoneId zone(Terminal terminal) {
        return terminal.clock().getZone();
    }

    /** All names of a ledger, each behind its kind. */
    private static List<String> all(Path path, ZoneId zone) throws IOException {
        List<String> lines = new ArrayList<>();
        try (LedgerFile file = LedgerFile.openReadOnly(path)) {
            Ledger ledger = Ledger.of(file.entries());
            add(lines, BIKE, ledger.bikes().keySet());
            add(lines, CHAIN, ledger.chains().keySet());
            add(lines, PRODUCT, ledger.products().keySet());
            Formatter format = Asked.NOTHING.format(ledger.settings(), zone);
            for (LedgerFile.Named ride : file.latestRides(RIDES)) {
                lines.add(RIDE + "\t" + ride.id() + "\t" + format.date(ride.start()) + ", "
                        + format.leftWhole(ride.metres()));
            }
        }
        return lines;
    }

    private static void add(List<String> lines, String kind, Set<String> names) {
        names.forEach(name -> lines.add(kind + "\t" + name));
    }
}
