package chainage.importer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.InterruptedIOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.concurrent.CountDownLatch;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

@Timeout(300)
class ImporterTest {
    private static final Instant NOW = Instant.parse("2026-03-01T08:00:00Z");
    private static final FileTime LONG_AGO = FileTime.from(NOW.minusSeconds(86_400));
    private static final UnpackLimits SMALL = new UnpackLimits(4000, 2000, 20, 5000, 30, 3, 10_000, 4, 3, 2);

    @TempDir
    Path temp;

    private Path rides;
    private final KnownInMemory shelf = new KnownInMemory();

    @BeforeEach
    void folder() throws IOException {
        rides = Files.createDirectory(temp.resolve("rides"));
    }

    private static Options options() {
        return new Options(2, NOW, (done, total, file) -> {}, () -> NOW, time -> {});
    }

    private Importer importer(Sink sink, int jobs) {
        return new Importer(Fake::decode, shelf, sink, options().withJobs(jobs), SMALL);
    }

    private List<Outcome> run(Path... paths) throws IOException {
        return importer(shelf, 2).run(List.of(paths));
    }

    private Path put(String name, byte[] content) throws IOException {
        Path file = rides.resolve(name);
        Files.createDirectories(file.getParent());
        Files.write(file, content);
        Files.setLastModifiedTime(file, LONG_AGO);
        return file;
    }

    private Path put(String name, String words) throws IOException {
        return put(name, Fake.content(words));
    }

    /** One line an outcome: name below the folder, kind, reason. */
    private List<String> lines(List<Outcome> outcomes) {
        String prefix = rides + "/";
        return outcomes.stream()
                .map(o -> (o.file().replace(prefix, "") + " " + o.kind() + " " + o.reason()).strip())
                .toList();
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(delimiter = '|', textBlock = """
        a.gpx     | ride               | IMPORTED |
        noname    | ride               | IMPORTED |
        a.gpx     | ride ride          | IMPORTED |
        a.gpx     | ride course        | IMPORTED | part 2 passed over: a course
        a.gpx     | ride broken        | IMPORTED | part 2 refused: no times
        a.gpx     | salvaged           | SALVAGED | cut off after 5 of 9 km
        a.gpx     | salvaged broken    | SALVAGED | cut off after 5 of 9 km; part 2 refused: no times
        a.gpx     | course             | NOT_RIDE | a course
        a.gpx     | course course      | NOT_RIDE | part 1 passed over: a course; part 2 passed over: a course
        a.gpx     | broken             | REFUSED  | no times
        a.gpx     | course broken      | REFUSED  | part 1 passed over: a course; part 2 refused: no times
        a.gpx     | none               | NOT_RIDE | holds no activity
        a.gpx     | refuse             | REFUSED  | CRC is wrong at byte 7
        a.gpx     | torn               | REFUSED  | ends at byte 7
        a.gpx     | bug                | REFUSED  | the reader failed (java.lang.IllegalStateException: index 7)
        a.gpx     | deep               | REFUSED  | the reader failed (java.lang.StackOverflowError: null)
        """)
    void eachContentGetsItsVerdictAndTheRestGoesOn(String name, String words, Outcome.Kind kind, String reason)
            throws IOException {
        put(name, words);
        put("z.gpx", "ride n=other");
        List<Outcome> outcomes = run(rides);
        assertEquals(2, outcomes.size());
        assertEquals(kind, outcomes.get(0).kind());
        assertEquals(reason == null ? "" : reason, outcomes.get(0).reason());
        assertEquals(Outcome.Kind.IMPORTED, outcomes.get(1).kind());
        assertEquals(List.of(), outcomes.get(1).rides());
        assertEquals(1, outcomes.get(1).keys().size());
        boolean rides = kind == Outcome.Kind.IMPORTED || kind == Outcome.Kind.SALVAGED;
        assertEquals(rides && words.contains("broken") ? 1 : 0, outcomes.get(0).refusedParts());
        assertEquals(!words.matches("bug|deep"), outcomes.get(0).settled());
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        photo.jpg      | some bytes | NOT_RIDE | no FIT, GPX or TCX content
        ride.fit       | some bytes | REFUSED  | no FIT, GPX or TCX content
        ride.GPX       | some bytes | REFUSED  | no FIT, GPX or TCX content
        ride.Tcx.gz    | some bytes | REFUSED  | no FIT, GPX or TCX content
        empty.txt      | ''         | NOT_RIDE | the file is empty
        empty.fit      | ''         | REFUSED  | the file is empty
        page.html      | <html>     | NOT_RIDE | no FIT, GPX or TCX content
        """)
    void whatIsNoRideFileIsAnErrorOnlyUnderARideFilesName(String name, String text, Outcome.Kind kind, String reason)
            throws IOException {
        put(name, text.getBytes(StandardCharsets.UTF_8));
        put("in.zip", Fake.zip(new Fake.Entry(name, text.getBytes(StandardCharsets.UTF_8))));
        put("in.gz/" + name, Fake.gzip(text.getBytes(StandardCharsets.UTF_8)));
        for (Outcome o : run(rides)) {
            if (o.kind() != Outcome.Kind.ARCHIVE) {
                assertEquals(kind, o.kind(), o.file());
                assertEquals(reason, o.reason(), o.file());
            }
        }
    }

    @Test
    void importingTwiceIsImportingOnce() throws IOException {
        put("a.gpx", "ride");
        put("b/c.gpx", "refuse");
        put("d.zip", Fake.zip(Fake.entry("x/e.gpx", "ride n=1"), Fake.entry("f.gpx", "course")));
        run(rides);
        String once = shelf.state();
        int batches = shelf.batches;
        List<Outcome> again = run(rides);
        assertEquals(once, shelf.state());
        assertEquals(batches, shelf.batches);
        assertEquals(
                List.of(
                        "a.gpx KNOWN unchanged",
                        "b/c.gpx KNOWN unchanged since it was refused: CRC is wrong at byte 7",
                        "d.zip KNOWN unchanged"),
                lines(again));
        // A refused file that has changed is tried again.
        put("b/c.gpx", "ride n=2");
        assertEquals("b/c.gpx IMPORTED", lines(run(rides)).get(1));
    }

    @Test
    void anUnchangedFileIsNotOpened() throws IOException {
        put("a.gpx", "ride");
        run(rides);
        List<Outcome> again = new Importer(
                        (content, digest, latest) -> {
                            throw new AssertionError("was read again");
                        },
                        shelf,
                        shelf,
                        options(),
                        SMALL)
                .run(List.of(rides));
        assertEquals(List.of("a.gpx KNOWN unchanged"), lines(again));
    }

    @Test
    void theSameContentCountsOnceWhateverItsWrapping() throws IOException {
        byte[] ride = Fake.content("ride");
        put("1.gpx", ride);
        put("2.gpx", ride);
        put("3.gpx.gz", Fake.gzip(ride));
        put("4.zip", Fake.zip(new Fake.Entry("a", ride), new Fake.Entry("b.gz", Fake.gzip(ride))));
        put("5.gpx", "refuse");
        put("6.gpx", "refuse");
        String same = " KNOWN same content as a file read before";
        List<String> expected = List.of(
                "1.gpx IMPORTED",
                "2.gpx" + same,
                "3.gpx.gz" + same,
                "4.zip!/a" + same,
                "4.zip!/b.gz" + same,
                "4.zip ARCHIVE",
                "5.gpx REFUSED CRC is wrong at byte 7",
                "6.gpx REFUSED CRC is wrong at byte 7");
        assertEquals(expected, lines(run(rides)));
        assertEquals(1, shelf.rides.size());
        // Under other paths all is known by content.
        Path moved = temp.resolve("moved");
        Files.move(rides, moved);
        List<Outcome> again = run(moved);
        assertTrue(again.stream()
                .filter(o -> o.kind() != Outcome.Kind.ARCHIVE)
                .allMatch(o -> o.kind() == Outcome.Kind.KNOWN || o.kind() == Outcome.Kind.REFUSED));
        assertEquals(1, shelf.rides.size());
    }

    @Test
    void pathsAreWalkedInOrderOnceAndHiddenOnesPassedOver() throws IOException {
        put("b.gpx", "ride n=1");
        put("a/z.gpx", "ride n=2");
        put(".hidden.gpx", "ride n=3");
        put(".hidden/x.gpx", "ride n=4");
        Path named = put(".named/x.gpx", "ride n=5");
        List<String> expected = List.of(".named/x.gpx IMPORTED", "a/z.gpx IMPORTED", "b.gpx IMPORTED");
        assertEquals(expected, lines(run(rides, rides.resolve("b.gpx"), named, rides.resolve("a"))));
    }

    @Test
    void aMissingPathStopsBeforeAnythingIsDone() throws IOException {
        put("a.gpx", "ride");
        assertThrows(NoSuchFileException.class, () -> run(rides, rides.resolve("none.gpx")));
        assertEquals(0, shelf.batches);
    }

    @Test
    void linksToFilesAreFollowedAndLoopsAreNot() throws IOException {
        put("a.gpx", "ride");
        put("sub/b.gpx", "ride n=1");
        Files.createSymbolicLink(rides.resolve("sub/loop"), rides);
        Files.createSymbolicLink(rides.resolve("link.gpx"), rides.resolve("a.gpx"));
        Files.createSymbolicLink(rides.resolve("nowhere.gpx"), rides.resolve("gone"));
        assertEquals(
                List.of(
                        "a.gpx IMPORTED",
                        "link.gpx KNOWN same content as a file read before",
                        "nowhere.gpx REFUSED the link leads nowhere",
                        "sub/b.gpx IMPORTED",
                        "sub/loop NOT_RIDE a link to a folder, not followed"),
                lines(run(rides)));
        Path door = Files.createSymbolicLink(temp.resolve("door"), rides.resolve("sub"));
        List<Outcome> named = run(door);
        assertEquals(door + "/b.gpx", named.get(0).file());
        assertEquals(door + "/b.gpx", named.get(0).stamp().path());
    }

    @Test
    void aPipeIsNotOpened() throws IOException, InterruptedException {
        Path pipe = rides.resolve("pipe.fit");
        assertEquals(0, new ProcessBuilder("mkfifo", pipe.toString()).start().waitFor());
        assertEquals(List.of("pipe.fit NOT_RIDE neither a file nor a folder"), lines(run(rides)));
    }

    @Test
    void aFileThatVanishesIsRefusedAndTriedAgain() throws IOException {
        Path gone = put("b.gpx", "ride");
        put("a.gpx", "ride n=1");
        // Read strictly after the walk has seen both.
        KnownFiles memory = new KnownFiles() {
            @Override
            public java.util.Optional<Known> unchanged(SourceStamp stamp) {
                try {
                    Files.deleteIfExists(gone);
                } catch (IOException e) {
                    throw new AssertionError(e);
                }
                return java.util.Optional.empty();
            }

            @Override
            public java.util.Optional<Known> known(chainage.quantity.ContentDigest digest) {
                return java.util.Optional.empty();
            }
        };
        List<Outcome> outcomes = new Importer(Fake::decode, memory, shelf, options(), SMALL).run(List.of(rides));
        assertEquals(Outcome.Kind.IMPORTED, outcomes.get(0).kind());
        assertEquals(Outcome.Kind.REFUSED, outcomes.get(1).kind());
        assertFalse(outcomes.get(1).settled());
        assertFalse(shelf.state().contains("b.gpx"));
    }

    /** Files of every sort, more than fill the queues. */
    private void mixedFolder() throws IOException {
        for (int n = 0; n < 12; n++) {
            put("r" + n + ".gpx", "ride n=" + n / 2);
        }
        put("broken.gpx", "refuse");
        put("two.gpx", "ride ride broken");
        put("part.gpx", "salvaged n=9");
        put("x.txt", new byte[] {1, 2, 3});
        put("cut.gz", Arrays.copyOf(Fake.gzip(Fake.content("ride n=20")), 20));
        put(
                "all.zip",
                Fake.zip(
                        Fake.entry("r.gpx", "ride n=1"),
                        Fake.entry("s.gpx", "ride n=30"),
                        Fake.entry("s.gpx", "ride n=31"),
                        Fake.entry("../t.gpx", "ride n=32"),
                        new Fake.Entry("in.zip", Fake.zip(Fake.entry("u.gpx", "ride n=33"))),
                        Fake.entry("v.gpx", "refuse")));
    }

    @Test
    void killedAfterAnyOutcomeAndRunAgainGivesTheSameEnd() throws IOException {
        mixedFolder();
        KnownInMemory whole = new KnownInMemory();
        int total = new Importer(Fake::decode, whole, whole, options(), SMALL)
                .run(List.of(rides))
                .size();
        int failures = 0;
        for (int n = 0; n <= total; n++) {
            KnownInMemory broken = new KnownInMemory();
            try {
                new Importer(Fake::decode, broken, broken.failingAfter(n), options(), SMALL).run(List.of(rides));
            } catch (IOException e) {
                failures++;
                assertEquals("the disk is full", e.getMessage());
            }
            new Importer(Fake::decode, broken, broken, options(), SMALL).run(List.of(rides));
            assertEquals(whole.state(), broken.state(), "failed after " + n);
        }
        assertTrue(failures > total / 2);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void neitherThreadsNorOrderOfArgumentsChangeTheResult(long seed) throws IOException {
        mixedFolder();
        List<Outcome> expected = importer(shelf, 1).run(List.of(rides));
        List<Path> paths = new ArrayList<>();
        try (var list = Files.list(rides)) {
            list.forEach(paths::add);
        }
        Collections.shuffle(paths, new Random(seed));
        for (int jobs : new int[] {1, 4}) {
            KnownInMemory other = new KnownInMemory();
            List<Outcome> outcomes =
                    new Importer(Fake::decode, other, other, options().withJobs(jobs), SMALL).run(paths);
            assertEquals(expected, outcomes, "seed " + seed + ", jobs " + jobs);
            assertEquals(shelf.state(), other.state(), "seed " + seed + ", jobs " + jobs);
        }
    }

    @Test
    void progressNamesEveryFileAndEndsWithAll() throws IOException {
        mixedFolder();
        List<Integer> done = new ArrayList<>();
        new Importer(
                        Fake::decode,
                        shelf,
                        shelf,
                        options().withProgress((n, total, file) -> {
                            assertEquals(18, total);
                            done.add(n);
                        }),
                        SMALL)
                .run(List.of(rides));
        assertEquals(done.stream().sorted().toList(), done);
        assertEquals(18, done.get(done.size() - 1));
    }

    @Test
    void anErrorOfTheMachineStopsTheRun() throws IOException {
        put("a.gpx", "memory");
        assertEquals(
                "as a test",
                assertThrows(OutOfMemoryError.class, () -> run(rides)).getMessage());
    }

    @Test
    void aFaultInWhatItIsGivenStopsTheRun() throws IOException {
        put("a.gpx", "ride");
        Sink faulty = batch -> {
            throw new IllegalArgumentException("fault");
        };
        assertThrows(IllegalArgumentException.class, () -> importer(faulty, 2).run(List.of(rides)));
    }

    @Test
    void anInterruptStopsTheRunAndStaysSet() throws IOException, InterruptedException {
        put("a.gpx", "ride");
        CountDownLatch decoding = new CountDownLatch(1);
        List<String> seen = Collections.synchronizedList(new ArrayList<>());
        Decode slow = (content, digest, latest) -> {
            decoding.countDown();
            try {
                new CountDownLatch(1).await();
            } catch (InterruptedException e) {
                seen.add("decoder told");
            }
            return Fake.decode(content, digest, latest);
        };
        Thread thread = new Thread(() -> {
            try {
                new Importer(slow, shelf, shelf, options(), SMALL).run(List.of(rides));
            } catch (InterruptedIOException e) {
                seen.add("stopped, flag " + Thread.currentThread().isInterrupted());
            } catch (IOException e) {
                seen.add(e.toString());
            }
        });
        thread.start();
        decoding.await();
        thread.interrupt();
        thread.join();
        assertEquals(List.of("decoder told", "stopped, flag true"), seen);
        assertEquals(0, shelf.batches);
    }

    /** Names in an older code than this locale's look the same as text; once only one of such files was read. */
    @Test
    void namesThatAreNoTextInThisLocaleStayApart() throws IOException {
        for (String name : List.of("f%E4hrte.gpx", "f%F6hrte.gpx")) {
            Path file = Path.of(URI.create(rides.toUri() + name));
            try {
                Files.write(file, Fake.content("ride n=" + name));
            } catch (IOException e) {
                assumeTrue(false, "this file system takes no such names: " + e.getMessage());
            }
            Files.setLastModifiedTime(file, LONG_AGO);
        }
        assertEquals(List.of("f%E4hrte.gpx IMPORTED", "f%F6hrte.gpx IMPORTED"), lines(run(rides)));
        assertEquals(List.of("f%E4hrte.gpx KNOWN unchanged", "f%F6hrte.gpx KNOWN unchanged"), lines(run(rides)));
    }
}
