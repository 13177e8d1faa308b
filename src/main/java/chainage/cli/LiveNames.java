package chainage.cli;

import chainage.host.LedgerPlace;
import chainage.host.Terminal;
import chainage.ledger.Ledger;
import chainage.render.Formatter;
import chainage.store.LedgerFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/**
 * What a shell asks for while a rider types: {@code complete KIND [LEDGER]} answers names from the ledger, one a line, with a
 * few words on it behind a tabulator. Nothing is parsed or derived, since a rider waits for it at each press of a key; and
 * nothing is said of what goes wrong, since it would stand in the line that is typed.
 */
final class LiveNames {
    static final String COMMAND = "complete";

    static final String BIKE = "bike";
    static final String CHAIN = "chain";
    static final String PRODUCT = "product";
    static final String RIDE = "ride";

    /** So many rides fit on a screen; our choice. */
    private static final int RIDES = 40;

    private LiveNames() {}

    static boolean asked(String... args) {
        return args.length > 1 && args[0].equals(COMMAND);
    }

    /** Prints them; nothing where there is no ledger. */
    static int answer(Terminal terminal, String... args) {
        try {
            @Nullable String typed = args.length > 2 && !args[2].isBlank() ? args[2] : null;
            Path ledger = LedgerPlace.find(typed, terminal.environment());
            if (Files.exists(ledger)) {
                try (LedgerFile file = LedgerFile.openReadOnly(ledger)) {
                    print(terminal, file, args[1]);
                }
            }
        } catch (IOException | IllegalArgumentException e) {
            // Said when the command itself is carried out.
        }
        terminal.out().flush();
        return ExitCode.OK.code();
    }

    private static void print(Terminal terminal, LedgerFile file, String kind) throws IOException {
        Ledger ledger = Ledger.of(file.entries());
        if (kind.equals(RIDE)) {
            Formatter format =
                    Asked.NOTHING.format(ledger.settings(), terminal.clock().getZone());
            for (LedgerFile.Named ride : file.latestRides(RIDES)) {
                terminal.out()
                        .print(ride.id() + "\t" + format.date(ride.start()) + ", " + format.leftWhole(ride.metres())
                                + "\n");
            }
            return;
        }
        for (String name : switch (kind) {
            case BIKE -> ledger.bikes().keySet();
            case CHAIN -> ledger.chains().keySet();
            case PRODUCT -> ledger.products().keySet();
            default -> throw new IllegalArgumentException(kind);
        }) {
            terminal.out().print(name + "\n");
        }
    }
}
