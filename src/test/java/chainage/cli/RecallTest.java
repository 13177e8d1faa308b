package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.analysis.Gist;
import chainage.host.Program;
import chainage.recall.Recall;
import chainage.store.LedgerFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is kept for short answers changes none of them, whatever becomes of it. */
class RecallTest {
    private static final Instant NOW = Instant.parse("2026-11-01T12:00:00Z");

    @TempDir
    Path folder;

    private Path ledger;

    @BeforeEach
    void demo() {
        ledger = folder.resolve("ledger.sqlite");
        assertEquals(0, run("bike", "add", "Heron").code());
        assertEquals(0, run("chain", "add", "Flint").code());
        run("import", "fixtures/season/rides");
        assertEquals(0, run("install", "Flint", "Heron", "--on", "2025-01-01").code());
    }

    private Path kept() {
        return folder.resolve("cache/chainage/kept");
    }

    private Run run(String... args) {
        return run(NOW, args);
    }

    private Run run(Instant now, String... args) {
        return Run.in(Map.of("XDG_CACHE_HOME", folder.resolve("cache").toString()), now, with(args));
    }

    /** The same by a program that keeps nothing. */
    private Run fresh(Instant now, String... args) {
        return Run.in(Map.of(), now, with(args));
    }

    private String[] with(String... args) {
        return Stream.concat(Stream.of("--ledger", ledger.toString()), Arrays.stream(args))
                .toArray(String[]::new);
    }

    private Path file() throws IOException {
        try (Stream<Path> all = Files.list(kept())) {
            List<Path> files = all.toList();
            assertEquals(1, files.size(), files.toString());
            return files.get(0);
        }
    }

    private Recall.Key key() throws IOException {
        return new Recall.Key(ledger.toRealPath(), LedgerFile.look(ledger), Program.identity(), "null Z");
    }

    /** True when what is kept holds for the ledger as it is. */
    private boolean isKept() throws IOException {
        String state;
        try (LedgerFile file = LedgerFile.openReadOnly(ledger)) {
            file.load();
            state = file.state();
        }
        return new Recall(kept())
                .of(key())
                .filter(k -> k.state().equals(state) && k.gist().holds(NOW))
                .isPresent();
    }

    @Test
    void whatIsKeptIsTheOwnersAlone() throws IOException {
        run("due");
        assertEquals("rwx------", PosixFilePermissions.toString(Files.getPosixFilePermissions(kept())));
        assertEquals("rw-------", PosixFilePermissions.toString(Files.getPosixFilePermissions(file())));
    }

    @Test
    void importsAndChangesBringItUpToDateThemselves() throws IOException {
        assertTrue(isKept());
        for (List<String> change : List.of(
                List.of("treat", "Flint", "wet-lube", "--on", "2026-03-01"),
                List.of("tag", "last", "muddy"),
                List.of("remark", "Flint", "noisy", "--on", "2026-10-01"),
                List.of("undo"),
                List.of("chain", "add", "Moss"))) {
            assertEquals(0, run(change.toArray(String[]::new)).code(), change.toString());
            assertTrue(isKept(), change.toString());
            assertEquals(fresh(NOW, "due"), run("due"), change.toString());
            assertTrue(isKept(), change.toString());
        }
        assertEquals(0, run("check").code());
    }

    @Test
    void changesTellTheSameFromWhatIsKeptAsFromTheRides() throws IOException {
        Path book = folder.resolve("book.txt");
        Files.writeString(book, """
                chainage logbook
                2026-03-20 treat Flint wet-lube
                2026-03-25 remark Flint noisy
                2026-04-02 measure Flint 0.9% --tool ruler
                """);
        Path copy = folder.resolve("copy.sqlite");
        for (List<String> change : List.of(
                List.of("treat", "Flint", "grease", "--on", "2026-02-01"),
                List.of("tag", "last", "muddy"),
                List.of("measure", "Flint", "0.2%", "--on", "2026-02-20"),
                List.of("remark", "Flint", "noisy", "--on", "2026-03-02"),
                List.of("factors", "set", "treatment.wet.hot-wax", "5"),
                List.of("import", book.toString()),
                List.of("chain", "add", "Moss"),
                List.of("install", "Moss", "Heron", "--on", "2026-02-10", "--swap"),
                List.of("undo"),
                List.of("assign", "last", "--not-a-ride"),
                List.of("remark", "Flint", "retired", "--on", "2026-10-30"))) {
            assertTrue(isKept(), change.toString());
            Files.copy(ledger, copy, StandardCopyOption.REPLACE_EXISTING);
            List<String> alone = new ArrayList<>(List.of("--ledger", copy.toString()));
            alone.addAll(change);
            Run told = Run.in(Map.of(), NOW, alone.toArray(String[]::new));
            assertEquals(0, told.code(), told.toString());
            assertEquals(told, run(change.toArray(String[]::new)), change.toString());
        }
    }

    @Test
    void anImportThatBringsNothingSaysTheSame() throws IOException {
        Path folder = this.folder.resolve("rides");
        Files.createDirectories(folder);
        for (String ride : List.of("2026-03-01-0910.fit", "2026-03-11-1730.fit")) {
            Files.copy(Path.of("fixtures/season/rides/computer", ride), folder.resolve(ride));
        }
        String first = run("import", folder.toString()).out();
        assertTrue(first.startsWith("2 files: 2 known.") && first.contains("Flint, on Heron"), first);
        assertEquals(fresh(NOW, "import", folder.toString()), run("import", folder.toString()));
        // Where what was kept is gone, all is worked out, and kept again.
        Files.write(file(), new byte[0]);
        assertEquals(fresh(NOW, "import", folder.toString()), run("import", folder.toString()));
        assertTrue(isKept());
        assertEquals(fresh(NOW, "import", folder.toString(), "--json"), run("import", folder.toString(), "--json"));
        Files.writeString(folder.resolve("notes.txt"), "chainage logbook\n2026-03-02 treat Flint hot-wax\n");
        String told = run("import", folder.toString()).out();
        assertTrue(told.contains("new: 2026-03-02 treat Flint hot-wax"), told);
        assertEquals(fresh(NOW, "import", folder.toString()), run("import", folder.toString()));
    }

    @Test
    void timeGoesOnWithoutAnotherFact() {
        for (int hours = 0; hours < 5000; hours += 331) {
            Instant later = NOW.plusSeconds(3600L * hours);
            assertEquals(fresh(later, "due"), run(later, "due"), later.toString());
        }
    }

    @Test
    void anEarlierInstantIsWorkedOut() {
        for (String at : List.of("2026-03-01", "2026-06-15 12:00", "2025-01-01")) {
            assertEquals(fresh(NOW, "due", "--at", at), run("due", "--at", at), at);
        }
        assertEquals(fresh(NOW, "due"), run("due"));
    }

    @Test
    void whatIsDamagedIsWorkedOutAnew() throws IOException {
        Run due = fresh(NOW, "due");
        byte[] whole = Files.readAllBytes(file());
        for (int i = 0; i < whole.length; i += 1 + whole.length / 25) {
            byte[] bent = whole.clone();
            bent[i] ^= 0x10;
            Files.write(file(), bent);
            assertEquals(due, run("due"), "byte " + i);
            Files.write(file(), Arrays.copyOf(whole, i));
            assertEquals(due, run("due"), "cut at " + i);
        }
        Files.write(file(), new byte[0]);
        assertEquals(due, run("due"));
        assertTrue(isKept());
    }

    @Test
    void aLedgerThatSomethingElseWroteToIsReadWhole() throws IOException {
        run("due");
        Files.setLastModifiedTime(ledger, FileTime.from(Instant.parse("2026-01-01T00:00:00Z")));
        assertFalse(isKept());
        assertEquals(fresh(NOW, "due"), run("due"));
        assertTrue(isKept());
    }

    @Test
    void whereOthersCanWriteNothingIsReadOrKept() throws IOException {
        bend();
        Files.setPosixFilePermissions(kept(), PosixFilePermissions.fromString("rwxrwxrwx"));
        assertEquals(fresh(NOW, "due"), run("due"));
        Path elsewhere = Files.createDirectory(folder.resolve("elsewhere"));
        Files.move(kept(), elsewhere.resolve("kept"));
        Files.setPosixFilePermissions(elsewhere.resolve("kept"), PosixFilePermissions.fromString("rwx------"));
        Files.createSymbolicLink(kept(), elsewhere.resolve("kept"));
        assertEquals(fresh(NOW, "due"), run("due"));
        assertTrue(Files.isDirectory(kept()) && !Files.isDirectory(kept(), LinkOption.NOFOLLOW_LINKS));
    }

    /** Puts another figure into what is kept. */
    private void bend() throws IOException {
        Recall recall = new Recall(kept());
        Recall.Kept kept = recall.of(key()).orElseThrow();
        Gist g = kept.gist();
        List<Gist.Chain> chains = g.chains().stream()
                .map(c -> new Gist.Chain(
                        c.name(),
                        c.riddenMetres(),
                        c.wearMetres(),
                        c.lastBike(),
                        c.life(),
                        c.limitMetres(),
                        c.treatedMetres(),
                        c.exposureMetres() + 1e6,
                        c.basis(),
                        c.elongationPercent(),
                        c.ridableMetres(),
                        c.over(),
                        c.expected(),
                        c.percentPerMetre(),
                        c.readings(),
                        c.othersRead(),
                        c.othersWeight(),
                        c.doubts()))
                .toList();
        recall.keep(
                key(),
                new Recall.Kept(
                        kept.state(),
                        new Gist(
                                g.from(),
                                g.until(),
                                g.leaning(),
                                chains,
                                g.habits(),
                                g.bare(),
                                g.bareMetres(),
                                g.last(),
                                g.told())));
    }

    /** Which shows as well that short answers do go by what is kept. */
    @Test
    void checkFindsWhatDoesNotFollowFromTheFacts() throws IOException {
        run("treat", "Flint", "wet-lube", "--on", "2026-03-01");
        Run due = run("due");
        bend();
        assertNotEquals(due, run("due"));
        Run check = run("check");
        assertEquals(65, check.code());
        assertTrue(check.out().contains("kept in the cache"), check.out());
        assertEquals(due, run("due"));
        assertEquals(0, run("check").code());
    }

    private Run complete(String kind) {
        return Run.in(
                Map.of("XDG_CACHE_HOME", folder.resolve("cache").toString()), NOW, "complete", kind, ledger.toString());
    }

    @Test
    void namesAreRememberedAsLongAsTheLedgerLiesThereAsItDoes() throws IOException {
        assertEquals("Flint\n", complete("chain").out());
        Path names;
        try (Stream<Path> all = Files.list(kept())) {
            names = all.filter(f -> f.toString().endsWith(".names")).findAny().orElseThrow();
        }
        assertEquals("rw-------", PosixFilePermissions.toString(Files.getPosixFilePermissions(names)));
        // By a change of what is kept is seen that the second answer goes by it, for every kind.
        Recall recall = new Recall(kept());
        Recall.Key key = new Recall.Key(ledger.toRealPath(), LedgerFile.look(ledger), Program.identity(), "Z");
        List<String> bent = recall.names(key).orElseThrow().stream()
                .map(l -> l.replace("Flint", "Moss"))
                .toList();
        recall.keep(key, bent);
        assertEquals("Moss\n", complete("chain").out());
        assertEquals("Heron\n", complete("bike").out());
        assertEquals(40, complete("ride").out().lines().count());
        // Each fact makes the ledger another one.
        run("chain", "add", "Tern");
        assertEquals("Flint\nTern\n", complete("chain").out());
        run("undo");
        assertEquals("Flint\n", complete("chain").out());
        Files.write(names, new byte[] {1, 2, 3});
        assertEquals("Flint\n", complete("chain").out());
        // What a program at work has written may still stand in a log beside the file, of which the look tells nothing.
        try (LedgerFile open = LedgerFile.open(ledger)) {
            assertFalse(open.entries().isEmpty());
            run("chain", "add", "Tern");
            assertEquals("Flint\nTern\n", complete("chain").out());
            run("chain", "add", "Moss");
            assertEquals("Flint\nMoss\nTern\n", complete("chain").out());
        }
        assertEquals("Flint\nMoss\nTern\n", complete("chain").out());
    }

    @Test
    void aCacheThatCannotBeWrittenIsNoError() throws IOException {
        Path file = Files.createFile(folder.resolve("file"));
        Run due = Run.in(Map.of("XDG_CACHE_HOME", file.toString()), NOW, with("due"));
        assertEquals(fresh(NOW, "due"), due);
    }
}
