package chainage.cli;

import chainage.TestRides;
import chainage.analysis.Snapshot;
import chainage.bookkeeping.LineReader;
import chainage.command.Asked;
import chainage.command.CommandContext;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Kinds;
import chainage.ledger.Ledger;
import chainage.ledger.Logbook;
import chainage.logbook.LogbookReading;
import chainage.logbook.LogbookText;
import chainage.logbook.Refusal;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Bytes as a logbook of a fresh ledger with a ride or two, for tests of other packages. */
public final class LogbookBytes {
    private static final Instant NOW = Instant.parse("2026-11-01T12:00:00Z");
    private static final CommandContext CONTEXT = new CommandContext(
            Run.terminal(NOW, new StringWriter(), new StringWriter()),
            Path.of("none"),
            Asked.NOTHING,
            false,
            true,
            Main.RUNNER);
    private static final LineReader LINES = new LineReader(CONTEXT);
    private static final Snapshot RIDES = Snapshot.of(
            List.of(),
            List.of(
                    TestRides.ride("a", "2026-03-02T08:00:00Z", 30).filed(),
                    TestRides.ride("b", "2026-03-08T08:00:00Z", 40).filed()),
            Map.of());

    private LogbookBytes() {}

    /**
     * Reads them, and checks that what they state can be kept and contradicts nothing.
     *
     * @return what was refused, a line each
     */
    public static List<String> read(byte[] content) {
        List<String> refused = new ArrayList<>();
        try {
            LogbookReading reading = LogbookReading.of(
                    new LogbookReading.From(
                            Logbook.fresh("/season.txt"),
                            "/season.txt",
                            LogbookText.of(content),
                            Set.of(),
                            List.of(),
                            true),
                    CONTEXT.format().clock(),
                    LINES.over(RIDES));
            List<Entry> entries = new ArrayList<>();
            for (Event e : reading.events()) {
                Kinds.of(e).check(e);
                entries.add(new Entry(entries.size() + 1, 1, NOW, e));
            }
            if (!Ledger.of(entries).problems().isEmpty()) {
                throw new AssertionError(Ledger.of(entries).problems().toString());
            }
            reading.refused().forEach(r -> refused.add(r.reason()));
        } catch (Refusal e) {
            refused.add(e.reason());
        }
        return refused;
    }
}
