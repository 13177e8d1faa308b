package chainage.importer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

@Timeout(300)
class StillBeingWrittenTest {
    private static final Instant NOW = Instant.parse("2026-03-01T08:00:00Z");
    private static final String LEFT = "still being written, left for the next import";

    @TempDir
    Path folder;

    private final KnownInMemory shelf = new KnownInMemory();
    private final List<Duration> pauses = new ArrayList<>();

    private interface Change {
        void make() throws IOException;
    }

    private List<Outcome> run(Change whileWaiting) throws IOException {
        Options options = new Options(2, NOW, (done, total, file) -> {}, () -> NOW, time -> {
            pauses.add(time);
            try {
                whileWaiting.make();
            } catch (IOException e) {
                throw new AssertionError(e);
            }
        });
        return new Importer(Fake::decode, shelf, shelf, options).run(List.of(folder));
    }

    private Path put(String name, byte[] content, long secondsAgo) throws IOException {
        Path file = folder.resolve(name);
        Files.write(file, content);
        Files.setLastModifiedTime(file, FileTime.from(NOW.minusSeconds(secondsAgo)));
        return file;
    }

    @ParameterizedTest
    @ValueSource(strings = {"torn", "salvaged"})
    void aTornFileThatGrowsIsLeftForTheNextImport(String words) throws IOException {
        Path file = put("a.gpx", Fake.content(words), 1);
        put("b.gpx", Fake.content("ride"), 1);
        List<Outcome> outcomes = run(() -> Files.write(file, Fake.content("ride n=whole")));
        assertEquals(Outcome.Kind.REFUSED, outcomes.get(0).kind());
        assertEquals(LEFT, outcomes.get(0).reason());
        assertFalse(outcomes.get(0).settled());
        assertEquals(Outcome.Kind.IMPORTED, outcomes.get(1).kind());
        assertEquals(List.of(Duration.ofSeconds(1)), pauses);
        assertEquals(Outcome.Kind.IMPORTED, run(() -> {}).get(0).kind());
        assertEquals(2, shelf.rides.size());
    }

    @ParameterizedTest(name = "{0}, {1} s ago")
    @CsvSource(delimiter = '|', textBlock = """
        # words  | seconds ago | kind     | pauses
        torn     |  1          | REFUSED  | PT1S
        torn     |  0          | REFUSED  | PT2S
        torn     | -5          | REFUSED  | PT2S
        torn     |  5          | REFUSED  |
        torn     | 11          | REFUSED  |
        salvaged |  1          | SALVAGED | PT1S
        salvaged | 11          | SALVAGED |
        refuse   |  1          | REFUSED  |
        ride     |  1          | IMPORTED |
        """)
    void aTornFileThatRestsIsTakenAsItStands(String words, long secondsAgo, Outcome.Kind kind, String pause)
            throws IOException {
        put("a.gpx", Fake.content(words), secondsAgo);
        Outcome outcome = run(() -> {}).get(0);
        assertEquals(kind, outcome.kind());
        assertTrue(outcome.settled());
        assertEquals(pause == null ? List.of() : List.of(Duration.parse(pause)), pauses);
    }

    @Test
    void anEmptyOrCutFileThatVanishesIsLeftToo() throws IOException {
        Path empty = put("a.fit", new byte[0], 1);
        Path cut = put("b.gz", Arrays.copyOf(Fake.gzip(Fake.content("ride")), 15), 1);
        byte[] zip = Fake.zip(Fake.entry("1.gpx", "ride n=1"), Fake.entry("2.gpx", "ride n=2"));
        Path archive = put("c.zip", Arrays.copyOf(zip, zip.length - 3), 1);
        List<Outcome> outcomes = run(() -> {
            Files.delete(empty);
            Files.delete(cut);
            Files.write(archive, zip);
        });
        assertEquals(LEFT, outcomes.get(0).reason());
        assertEquals(LEFT, outcomes.get(1).reason());
        assertEquals(Outcome.Kind.IMPORTED, outcomes.get(2).kind());
        assertEquals(Outcome.Kind.IMPORTED, outcomes.get(3).kind());
        assertEquals(LEFT, outcomes.get(4).reason());
        assertEquals(5, outcomes.size());
        assertEquals(Outcome.Kind.ARCHIVE, run(() -> {}).get(2).kind());
    }

    @Test
    void anEntryThatIsTornInAWholeArchiveIsNotWaitedFor() throws IOException {
        put("c.zip", Fake.zip(Fake.entry("1.gpx", "torn")), 1);
        assertEquals("ends at byte 7", run(() -> {}).get(0).reason());
        assertEquals(List.of(), pauses);
    }
}
