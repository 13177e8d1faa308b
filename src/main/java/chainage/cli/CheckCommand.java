package chainage.cli;

import chainage.analysis.Analysis;
import chainage.analysis.Snapshot;
import chainage.ledger.Ledger;
import chainage.render.Json;
import chainage.ride.FiledRide;
import chainage.store.LedgerException;
import chainage.store.LedgerFile;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Command;

@Command(
        name = "check",
        description = {
            "Verify that the ledger file is sound and that no facts contradict each other.",
            "Rides whose date is doubtful are noted beside that."
        },
        footer = {"Example:", "  chainage check"})
final class CheckCommand extends Action {
    /** A ride so far from all others was perhaps recorded by a device whose clock was wrong; our guess. */
    private static final Duration ALONE = Duration.ofDays(2 * 365);

    @Override
    public Integer call() {
        CommandContext context = context();
        List<String> found = new ArrayList<>();
        List<String> notes = new ArrayList<>();
        if (context.written()) {
            try (LedgerFile file = context.openToRead()) {
                file.integrityCheck()
                        .forEach(t -> found.add("the file: " + t + "; put a copy back: chainage restore COPY"));
                facts(context, file, found, notes);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
        if (context.json()) {
            context.out().json(new Json().put("problems", found).put("notes", notes));
        } else {
            if (found.isEmpty()) {
                context.out().line("the ledger is sound, and nothing in it contradicts itself");
            }
            found.forEach(f -> context.out().line(f));
            notes.forEach(n -> context.out().line("note: " + n));
        }
        return found.isEmpty() ? ExitCode.OK.code() : ExitCode.REFUSED.code();
    }

    private static void facts(CommandContext context, LedgerFile file, List<String> found, List<String> notes)
            throws IOException {
        Snapshot snapshot;
        try {
            snapshot = file.load();
        } catch (LedgerException e) {
            if (e.kind() == LedgerException.Kind.CORRUPT && !found.isEmpty()) {
                return; // said already
            }
            throw e;
        }
        Ledger ledger = Ledger.of(snapshot.entries());
        Analysis analysis = context.analysis(snapshot);
        found.addAll(context.contradictions(ledger, analysis, ledger.chains().keySet()));
        notes.addAll(Doubts.lives(analysis, ledger.chains().keySet(), context.format()));
        notes.addAll(doubtfulDates(context, snapshot.rides()));
    }

    /** Rides that start after the present, and rides years away from all others. */
    private static List<String> doubtfulDates(CommandContext context, List<FiledRide> rides) {
        List<String> notes = new ArrayList<>();
        for (int i = 0; i < rides.size(); i++) {
            Instant start = rides.get(i).ride().start();
            boolean far = rides.size() > 2
                    && (i == 0 || isFar(rides.get(i - 1).ride().start(), start))
                    && (i == rides.size() - 1
                            || isFar(start, rides.get(i + 1).ride().start()));
            if (start.isAfter(context.now()) || far) {
                notes.add("ride " + rides.get(i).id() + " is dated "
                        + context.format().time(start) + ", " + (far ? "years from all others" : "in the future")
                        + ": a device's clock may have been wrong; to leave it out: chainage assign "
                        + rides.get(i).id() + " --not-a-ride");
            }
        }
        return notes;
    }

    private static boolean isFar(Instant a, Instant b) {
        return Duration.between(a, b).compareTo(ALONE) > 0;
    }
}
