package chainage.importer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.analysis.Snapshot;
import chainage.quantity.ContentDigest;
import chainage.store.Delivery;
import chainage.store.LedgerFile;
import chainage.store.SeenSources;
import chainage.store.Source;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The importer with a real ledger, joined as the command joins them. */
@Timeout(300)
class ImportIntoLedgerTest {
    private static final Instant NOW = Instant.parse("2026-03-01T08:00:00Z");

    @TempDir
    Path temp;

    private Path rides;

    @BeforeEach
    void folder() throws IOException {
        rides = temp.resolve("rides");
        for (int n = 0; n < 30; n++) {
            put("2025/r" + n + ".gpx", Fake.content("ride n=" + n / 2));
        }
        put("bad.fit", Fake.content("refuse"));
        put("partly.gpx", Fake.content("ride broken"));
        put("photo.jpg", new byte[] {1, 2, 3});
        put(
                "all.zip",
                Fake.zip(
                        Fake.entry("r.gpx", "ride n=1"),
                        Fake.entry("s.gpx", "ride n=30"),
                        Fake.entry("s.gpx", "ride n=31"),
                        new Fake.Entry("in.zip", Fake.zip(Fake.entry("u.gpx", "salvaged n=33"))),
                        Fake.entry("v.gpx", "refuse")));
    }

    private void put(String name, byte[] content) throws IOException {
        Path file = rides.resolve(name);
        Files.createDirectories(file.getParent());
        Files.write(file, content);
        Files.setLastModifiedTime(file, FileTime.from(NOW.minusSeconds(86_400)));
    }

    private static KnownFiles memory(SeenSources seen) {
        return new KnownFiles() {
            @Override
            public Optional<Known> unchanged(SourceStamp stamp) {
                return seen.unchanged(stamp.path(), stamp.size(), stamp.modifiedMillis())
                        .map(s -> new Known(s.digest(), kind(s.verdict()), s.reason(), s.hint(), null));
            }

            @Override
            public Optional<Known> known(ContentDigest digest) {
                return seen.known(digest)
                        .map(c -> new Known(digest, kind(c.verdict()), c.reason(), c.hint(), c.ahead()));
            }
        };
    }

    private static Outcome.Kind kind(Source.Verdict verdict) {
        return Outcome.Kind.valueOf(verdict.name());
    }

    private static Delivery delivery(Outcome o) {
        Source source = new Source(
                o.stamp().path(),
                o.stamp().size(),
                o.stamp().modifiedMillis(),
                o.digest(),
                Source.Verdict.valueOf(o.kind().name()),
                o.reason(),
                o.hint(),
                o.refusedParts());
        return new Delivery(source, o.rides(), o.ahead());
    }

    private static Sink sink(LedgerFile ledger) {
        return batch -> ledger.appendRides(
                batch.stream().map(ImportIntoLedgerTest::delivery).toList());
    }

    private List<Outcome> run(LedgerFile ledger, Sink sink, int jobs) throws IOException {
        return run(ledger, sink, jobs, NOW);
    }

    private List<Outcome> run(LedgerFile ledger, Sink sink, int jobs, Instant latest) throws IOException {
        Options options = new Options(jobs, latest, (done, total, file) -> {}, () -> NOW, time -> {});
        UnpackLimits limits = new UnpackLimits(4000, 2000, 20, 5000, 30, 3, 10_000, 4, 3, 2);
        return new Importer(Fake::decode, memory(ledger.seen(latest)), sink, options, limits).run(List.of(rides));
    }

    /** All that an import leaves behind. */
    private record Left(Snapshot facts, List<Source> refused) {
        static Left in(LedgerFile ledger) throws IOException {
            assertEquals(List.of(), ledger.integrityCheck());
            return new Left(ledger.load(), ledger.refused());
        }
    }

    @Test
    void importingTwiceIsImportingOnce() throws IOException {
        try (LedgerFile ledger = LedgerFile.open(temp.resolve("ledger.db"))) {
            run(ledger, sink(ledger), 2);
            Left once = Left.in(ledger);
            assertEquals(15 + 1 + 1 + 1, once.facts().rides().size());
            assertEquals(
                    List.of("all.zip!/s.gpx (2)", "all.zip!/v.gpx", "bad.fit", "partly.gpx"),
                    once.refused().stream()
                            .map(s -> s.path().substring(rides.toString().length() + 1))
                            .toList());
            List<Outcome> again = run(ledger, sink(ledger), 2);
            assertTrue(again.stream().allMatch(o -> o.kind() == Outcome.Kind.KNOWN), again.toString());
            assertEquals(once, Left.in(ledger));
        }
    }

    @Test
    void theContentIsKnownWhenTheFolderHasMoved() throws IOException {
        try (LedgerFile ledger = LedgerFile.open(temp.resolve("ledger.db"))) {
            run(ledger, sink(ledger), 2);
            Snapshot once = ledger.load();
            rides = Files.move(rides, temp.resolve("moved"));
            run(ledger, sink(ledger), 2);
            Snapshot moved = ledger.load();
            assertEquals(once.rides().size(), moved.rides().size());
            for (int i = 0; i < once.rides().size(); i++) {
                assertEquals(once.rides().get(i).ride(), moved.rides().get(i).ride());
                assertEquals(
                        2 * once.rides().get(i).paths().size(),
                        moved.rides().get(i).paths().size());
            }
        }
    }

    @Test
    void stoppedAfterAnyBatchAndRunAgainWithAnyThreadsLeavesTheSame() throws IOException {
        Left whole;
        int[] batches = {0};
        try (LedgerFile ledger = LedgerFile.open(temp.resolve("whole.db"))) {
            run(
                    ledger,
                    batch -> {
                        batches[0]++;
                        sink(ledger).write(batch);
                    },
                    1);
            whole = Left.in(ledger);
        }
        for (int n = 0; n < batches[0]; n++) {
            try (LedgerFile ledger = LedgerFile.open(temp.resolve("ledger" + n + ".db"))) {
                int[] left = {n};
                Sink failing = batch -> {
                    if (left[0]-- == 0) {
                        throw new IOException("the disk is full");
                    }
                    sink(ledger).write(batch);
                };
                assertThrows(IOException.class, () -> run(ledger, failing, 3));
            }
            try (LedgerFile ledger = LedgerFile.open(temp.resolve("ledger" + n + ".db"))) {
                run(ledger, sink(ledger), 4);
                assertEquals(whole, Left.in(ledger), "stopped after " + n + " batches");
            }
        }
    }

    /** Once what a slow clock had refused was known for ever, wherever it lay. */
    @Test
    void whatWasRefusedForItsDateIsTriedAgainWhenTheClockSaysOtherwise() throws IOException {
        put("ahead.gpx", Fake.content("ahead n=40"));
        put("copy/ahead.gpx", Fake.content("ahead n=40"));
        put("later-copy.gpx", Fake.content("ahead n=40"));
        put("partly-ahead.gpx", Fake.content("ride ahead"));
        put("ahead.gpx.gz", Fake.gzip(Fake.content("ahead n=41")));
        put(
                "ahead.zip",
                Fake.zip(new Fake.Entry(
                        "in.zip", Fake.zip(Fake.entry("a.gpx", "ahead n=42"), Fake.entry("b", "ride")))));
        try (LedgerFile ledger = LedgerFile.open(temp.resolve("ledger.db"))) {
            run(ledger, sink(ledger), 2);
            Left early = Left.in(ledger);
            assertEquals(4 + 6, early.refused().size(), early.refused().toString());
            put("another-copy.gpx", Fake.content("ahead n=40"));
            run(ledger, sink(ledger), 2);
            early = Left.in(ledger);
            assertEquals(4 + 7, early.refused().size(), early.refused().toString());
            // As long as the date is ahead nothing is looked at again.
            List<Outcome> again = run(ledger, sink(ledger), 2, Fake.DATE.minusMillis(1));
            assertTrue(again.stream().allMatch(o -> o.kind() == Outcome.Kind.KNOWN), again.toString());
            assertEquals(early, Left.in(ledger));

            List<Outcome> later = run(ledger, sink(ledger), 2, Fake.DATE);
            assertEquals(
                    List.of("ahead.gpx", "ahead.gpx.gz", "ahead.zip!/in.zip!/a.gpx", "partly-ahead.gpx"),
                    later.stream()
                            .filter(o -> o.kind() == Outcome.Kind.IMPORTED)
                            .map(o -> o.file().substring(rides.toString().length() + 1))
                            .toList());
            Left right = Left.in(ledger);
            assertEquals(early.facts().rides().size() + 4, right.facts().rides().size());
            assertEquals(4, right.refused().size(), right.refused().toString());
            assertTrue(run(ledger, sink(ledger), 2, Fake.DATE).stream().allMatch(o -> o.kind() == Outcome.Kind.KNOWN));
            // A clock that is wrong again takes nothing away.
            assertTrue(run(ledger, sink(ledger), 2).stream().allMatch(o -> o.kind() == Outcome.Kind.KNOWN));
            assertEquals(right, Left.in(ledger));
        }
    }
}
