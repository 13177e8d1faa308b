package chainage.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import chainage.analysis.Snapshot;
import chainage.ledger.Event;
import chainage.quantity.ContentDigest;
import chainage.ride.Ride;
import chainage.store.file.Schema;
import chainage.store.row.EventCodecTest;
import chainage.store.row.PackedPowerTest;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ExportTest {
    private static final Instant NOW = Instant.parse("2026-03-01T08:00:00.250Z");

    @TempDir
    Path folder;

    private Path path(String name) {
        return folder.resolve(name);
    }

    /** A ledger with every kind of entry, of ride and of source, random within each. */
    private Path random(long seed, String name) throws IOException {
        Random random = new Random(seed);
        RandomFacts facts = new RandomFacts(seed);
        try (LedgerFile ledger = LedgerFile.open(path(name))) {
            for (Class<?> type : EventCodecTest.everyKindOfEvent().toList()) {
                ledger.append(
                        IntStream.range(0, 1 + random.nextInt(3))
                                .mapToObj(i -> facts.event(type))
                                .toList(),
                        NOW.plusMillis(random.nextInt(1_000_000)));
            }
            List<Delivery> batch = new ArrayList<>();
            for (int n = 0; n < 12; n++) {
                Ride plain = new RandomFacts(seed + n).ride(n);
                Ride ride = n % 2 == 0 ? plain : plain.withPower(PackedPowerTest.random(random));
                batch.add(LedgerFileTest.delivery(
                        "/rides/" + n + ".fit", List.of(ride), ride.key().digest()));
                batch.add(new Delivery(
                        new Source(
                                "/copy \u001b " + n,
                                n,
                                random.nextInt(),
                                ride.key().digest(),
                                Source.Verdict.KNOWN,
                                "",
                                "",
                                0),
                        List.of()));
            }
            ContentDigest broken = ContentDigest.of(new byte[] {(byte) seed});
            batch.add(new Delivery(
                    new Source("/broken", 1, 2, broken, Source.Verdict.REFUSED, "torn", "export it again", 0),
                    List.of()));
            batch.add(new Delivery(new Source("/a.zip", 1, 2, null, Source.Verdict.ARCHIVE, "", "", 3), List.of()));
            java.util.Collections.shuffle(batch, random);
            for (Delivery d : batch) {
                ledger.appendRides(List.of(d));
            }
        }
        try {
            LedgerFileTest.sql(
                    path(name),
                    "insert into observation values ('', 1000, '1.5,-2.25', 2, 3600, 0.1, '', null, 25, null, 0.5,"
                            + " row_sum('', 1000, '1.5,-2.25', 2, 3600, 0.1, '', null, 25, null, 0.5))",
                    "insert into observation values ('EQZZ', 1000, '', 1, 0, null, 'light rain', -3.5, null, 2, null,"
                            + " row_sum('EQZZ', 1000, '', 1, 0, null, 'light rain', -3.5, null, 2, null))");
        } catch (SQLException e) {
            throw new IOException(e);
        }
        return path(name);
    }

    static String export(Path ledger) throws IOException {
        StringBuilder text = new StringBuilder();
        try (LedgerFile file = LedgerFile.openReadOnly(ledger)) {
            file.export(text);
        }
        return text.toString();
    }

    private static Restored restore(Path ledger, String export) throws IOException, ExportException {
        return restore(ledger, export.getBytes(StandardCharsets.UTF_8), false);
    }

    private static Restored restore(Path ledger, byte[] export, boolean dryRun) throws IOException, ExportException {
        try (LedgerFile file = LedgerFile.open(ledger)) {
            return file.restore(new ByteArrayInputStream(export), dryRun);
        }
    }

    private static Snapshot load(Path ledger) throws IOException {
        try (LedgerFile file = LedgerFile.openReadOnly(ledger)) {
            return file.load();
        }
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
    void anExportMakesTheSameLedgerAgain(long seed) throws IOException, ExportException {
        Path first = random(seed, "first.db");
        String export = export(first);
        Restored restored = restore(path("second.db"), export);
        assertEquals(export, export(path("second.db")), "seed " + seed);
        assertEquals(load(first), load(path("second.db")), "seed " + seed);
        assertEquals(0, restored.entriesKnown() + restored.ridesKnown());
        try (LedgerFile a = LedgerFile.open(first);
                LedgerFile b = LedgerFile.open(path("second.db"))) {
            assertEquals(a.refused(), b.refused());
            assertEquals(
                    a.seen(Instant.EPOCH).unchanged("/rides/3.fit", 10, 20),
                    b.seen(Instant.EPOCH).unchanged("/rides/3.fit", 10, 20));
            assertEquals(List.of(), b.integrityCheck());
            // It lives on as the first one does.
            assertEquals(a.append(List.of(new Event.Undone(1)), NOW), b.append(List.of(new Event.Undone(1)), NOW));
        }
        assertEquals(export(first), export(path("second.db")));
    }

    /**
     * The saved ledger of version 1 was written by the program of that version: every kind of entry it knew, some taken
     * back, and rides of invented files. Its export was looked through by hand, and later versions must give the same.
     */
    @Test
    void aSavedLedgerOfVersionOneIsCopiedBesideItselfAndOpens() throws IOException {
        Path ledger = path("ledger.db");
        Path saved = Path.of("src/test/resources/ledgers/version-1.sqlite");
        Files.copy(saved, ledger);
        LedgerFile.open(ledger).close();
        assertEquals(-1, Files.mismatch(Path.of("src/test/resources/ledgers/version-1.jsonl"), exported(ledger)));
        assertEquals(5, load(ledger).rides().size());
        assertEquals(33, load(ledger).entries().size());
        Path copy = path("ledger.db.version-1");
        Files.delete(ledger);
        Files.move(copy, ledger);
        LedgerFile.open(ledger).close();
        assertEquals(-1, Files.mismatch(Path.of("src/test/resources/ledgers/version-1.jsonl"), exported(ledger)));
    }

    /**
     * The same with what came after. Version 2: weather records, factors, words, purchases, new names, readings as stated; 3:
     * what was refused for its date; 4: stamps of its states; 5: winds and clouds; 6: the same facts, each with its sum;
     * 7: power by the minute, logbooks, tables, meters, evidence, settings.
     */
    @ParameterizedTest
    @CsvSource({"2, 2, 45, 5", "3, 3, 45, 5", "4, 4, 48, 5", "5, 5, 49, 5", "6, 5, 49, 5", "7, 7, 69, 7"})
    void aSavedLedgerIsBroughtUpToDateAndSaysTheSame(int version, int facts, int entries, int rides)
            throws IOException {
        Path ledger = path("ledger.db");
        Files.copy(Path.of("src/test/resources/ledgers/version-" + version + ".sqlite"), ledger);
        LedgerFile.open(ledger).close();
        assertEquals(version < Schema.SCRIPTS.size(), Files.exists(path("ledger.db.version-" + version)));
        Path export = Path.of("src/test/resources/ledgers/version-" + facts + ".jsonl");
        assertEquals(-1, Files.mismatch(export, exported(ledger)));
        assertEquals(rides, load(ledger).rides().size());
        assertEquals(entries, load(ledger).entries().size());
        try (LedgerFile file = LedgerFile.openReadOnly(ledger)) {
            assertEquals(List.of(), file.integrityCheck());
        }
    }

    private Path exported(Path ledger) throws IOException {
        return Files.writeString(path("exported.jsonl"), export(ledger));
    }

    @Test
    void bringingItInTwiceIsOnce() throws IOException, ExportException {
        String export = export(random(1, "first.db"));
        Restored once = restore(path("second.db"), export);
        Restored twice = restore(path("second.db"), export);
        assertEquals(new Restored(0, once.entries(), 0, once.rides()), twice);
        assertEquals(export, export(path("second.db")));
    }

    @Test
    void theOrderInWhichRidesCameDoesNotShow() throws IOException {
        for (String name : List.of("up.db", "down.db")) {
            try (LedgerFile ledger = LedgerFile.open(path(name))) {
                for (int i = 0; i < 20; i++) {
                    ledger.appendRides(List.of(LedgerFileTest.delivery(name.equals("up.db") ? i : 19 - i)));
                }
            }
        }
        assertEquals(export(path("up.db")), export(path("down.db")));
    }

    @Test
    void ridesAreMergedAndFactsGoOnWhereTheyEnd() throws IOException, ExportException {
        List<Event> facts = List.of(new Event.Undone(1), new Event.Undone(2), new Event.Undone(3));
        for (int n = 0; n < 2; n++) {
            try (LedgerFile ledger = LedgerFile.open(path(n + ".db"))) {
                ledger.append(facts.subList(0, n + 2), NOW);
                ledger.appendRides(List.of(LedgerFileTest.delivery(1), LedgerFileTest.delivery(10 + n)));
            }
        }
        assertEquals(new Restored(1, 2, 1, 1), restore(path("0.db"), export(path("1.db"))));
        assertEquals(3, load(path("0.db")).entries().size());
        assertEquals(3, load(path("0.db")).rides().size());
        // An older export onto the newer ledger takes nothing away.
        assertEquals(new Restored(0, 3, 1, 2), restore(path("1.db"), export(path("0.db"))));
        assertEquals(export(path("0.db")), export(path("1.db")));
    }

    @Test
    void anotherHistoryIsRefusedWhole() throws IOException {
        Path other = path("other.db");
        try (LedgerFile ledger = LedgerFile.open(other)) {
            ledger.append(List.of(new Event.Undone(77)), NOW);
        }
        String before = export(other);
        String export = export(random(3, "first.db"));
        ExportException e = assertThrows(ExportException.class, () -> restore(other, export));
        assertEquals(2, e.line());
        assertTrue(e.what().contains("entry 1"), e.what());
        assertEquals(before, export(other));
    }

    @Test
    void aDryRunCountsAndTakesNothing() throws IOException, ExportException {
        String export = export(random(4, "first.db"));
        LedgerFile.open(path("second.db")).close();
        String empty = export(path("second.db"));
        Restored trial = restore(path("second.db"), export.getBytes(StandardCharsets.UTF_8), true);
        assertEquals(empty, export(path("second.db")));
        assertEquals(trial, restore(path("second.db"), export));
    }

    /** A line left out, said twice, cut short or swapped: always a refusal by its number, never half of it. */
    @ParameterizedTest
    @ValueSource(longs = {11, 12})
    void noDamagedLinePasses(long seed) throws IOException {
        List<String> lines = export(random(seed, "first.db")).lines().toList();
        Path second = path("second.db");
        LedgerFile.open(second).close();
        String empty = export(second);
        for (int i = 0; i < lines.size(); i++) {
            for (int damage = 0; damage < 3; damage++) {
                List<String> damaged = new ArrayList<>(lines);
                String line = damaged.remove(i);
                if (damage == 1) {
                    damaged.addAll(i, List.of(line, line));
                } else if (damage == 2) {
                    damaged.add(i, line.substring(0, line.length() / 2));
                }
                String text = damaged.stream().map(l -> l + "\n").collect(Collectors.joining());
                String title = "seed " + seed + ", line " + (i + 1) + ", damage " + damage;
                ExportException e = assertThrows(ExportException.class, () -> restore(second, text), title);
                assertTrue(e.line() <= damaged.size(), title);
                assertFalse(e.hint().isEmpty());
                assertEquals(empty, export(second), title);
            }
        }
    }

    /** A fact that no command would write is refused where it comes in; a ledger that holds one leaves it out and opens all the same. */
    @Test
    void aFactOutOfBoundsIsRefusedByItsLine() throws IOException {
        treated(path("first.db"), 5e9);
        assertEquals(1, load(path("first.db")).entries().size());
        try (LedgerFile ledger = LedgerFile.openReadOnly(path("first.db"))) {
            assertEquals(
                    List.of("entry 2 cannot be understood (field millilitres: 5.0E9 is not from 0.0 to 100000.0)"),
                    ledger.integrityCheck().stream().map(Fault::what).toList());
        }
        String export = export(path("first.db"));
        assertTrue(export.contains("\"kind\":\"lost\",\"fact\":{\"was\":\"treated {"), export);
        treated(path("sound.db"), 5.0);
        String stated = export(path("sound.db")).replace("\"millilitres\":5.0", "\"millilitres\":5e9");
        ExportException e = assertThrows(ExportException.class, () -> restore(path("second.db"), stated));
        assertEquals(3, e.line());
        assertEquals("cannot be understood (field millilitres: 5.0E9 is not from 0.0 to 100000.0)", e.what());
        assertEquals(0, load(path("second.db")).entries().size());
    }

    private static void treated(Path ledger, double millilitres) throws IOException {
        try (LedgerFile file = LedgerFile.open(ledger)) {
            file.append(
                    List.of(
                            new Event.ChainDescribed("Amber", 112, 11, null, null),
                            new Event.Treated(
                                    "Amber", "hot-wax", NOW, chainage.ledger.Cleaning.NONE, millilitres, null)),
                    NOW);
        }
    }

    /** Any byte: a refusal, or a ledger whose export says just what the changed file said. */
    @Test
    void aFlippedByteIsRefusedOrIsAnotherFact() throws IOException {
        byte[] export = export(random(13, "first.db")).getBytes(StandardCharsets.UTF_8);
        Random random = new Random(13);
        int refused = 0;
        for (int i = 0; i < 400; i++) {
            byte[] changed = export.clone();
            int at = random.nextInt(changed.length);
            changed[at] ^= (byte) (1 << random.nextInt(8));
            Path ledger = path("flip-" + i + ".db");
            try {
                restore(ledger, changed, false);
                String again = export(ledger);
                Path other = path("again-" + i + ".db");
                restore(other, again);
                assertEquals(again, export(other), "byte " + at);
            } catch (ExportException e) {
                refused++;
            }
        }
        assertTrue(refused > 100, refused + " of 400 refused");
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
        # case                  | line | text
        nothing at all          | 0    | ``
        another kind of file    | 1    | {"format":"shopping"}
        no JSON                 | 1    | hello
        an array                | 1    | []
        a later format          | 1    | {"format":"chainage-export","version":2}
        no end                  | 1    | {"format":"chainage-export","version":1}
        an unknown kind of line | 2    | {"format":"chainage-export","version":1}~{"polish":{}}
        two objects on a line   | 2    | {"format":"chainage-export","version":1}~{} {}
        a text for an object    | 2    | {"format":"chainage-export","version":1}~{"entry":"x"}
        an unknown fact         | 2    | {"format":"chainage-export","version":1}~{"entry":{"number":1,"command":1,"recorded":"2026-01-01T00:00:00.000Z","kind":"polished","fact":{}}}
        a gap in the numbers    | 2    | {"format":"chainage-export","version":1}~{"entry":{"number":2,"command":1,"recorded":"2026-01-01T00:00:00.000Z","kind":"undone","fact":{"target":1}}}
        a ride of no content    | 2    | {"format":"chainage-export","version":1}~{"ride":{"digest":"00","session":0}}
        a digest too short      | 2    | {"format":"chainage-export","version":1}~{"content":{"digest":"00","outcome":"imported","reason":"","mend":""}}
        a number beyond bounds  | 2    | {"format":"chainage-export","version":1}~{"entry":{"number":99999999999999999999,"command":1,"recorded":"2026-01-01T00:00:00.000Z","kind":"undone","fact":{"target":1}}}
        more behind the end     | 3    | {"format":"chainage-export","version":1}~{"end":{"entries":0,"contents":0,"rides":0,"places":0,"sources":0,"observations":0}}~x
        """)
    void whatIsNoExportIsRefused(String title, int line, String text) throws IOException {
        ExportException e =
                assertThrows(ExportException.class, () -> restore(path("x.db"), text.replace('~', '\n')), title);
        assertEquals(line, e.line(), e.getMessage());
        assertEquals(0, load(path("x.db")).entries().size());
    }

    @Test
    void aLineWithoutEndAndOneOfOtherBytesAreRefused() throws IOException {
        byte[] nested = ("{\"format\":\"chainage-export\",\"version\":1}\n" + "{\"a\":".repeat(100_000))
                .getBytes(StandardCharsets.UTF_8);
        assertThrows(ExportException.class, () -> restore(path("x.db"), nested, false));
        byte[] long17 = new byte[17 << 20];
        assertThrows(ExportException.class, () -> restore(path("x.db"), long17, false));
        assertThrows(ExportException.class, () -> restore(path("x.db"), new byte[] {(byte) 0xc3, 0x28}, false));
    }

    @Test
    void filesAreForTheOwnerAloneAndNothingIsOverwritten() throws IOException, ExportException {
        Path ledger = random(5, "first.db");
        try (LedgerFile file = LedgerFile.openReadOnly(ledger)) {
            file.export(path("out.jsonl"));
            file.backup(path("copy.db"));
            assertThrows(FileAlreadyExistsException.class, () -> file.export(path("out.jsonl")));
            assertThrows(FileAlreadyExistsException.class, () -> file.backup(path("copy.db")));
        }
        assertEquals(export(ledger), Files.readString(path("out.jsonl")));
        assertEquals(export(ledger), export(path("copy.db")));
        assertEquals(List.of(path("copy.db"), ledger, path("out.jsonl")), LedgerFileTest.list(folder));
        assumeTrue(Files.getFileStore(folder).supportsFileAttributeView("posix"));
        for (String name : List.of("out.jsonl", "copy.db", "first.db")) {
            assertEquals("rw-------", PosixFilePermissions.toString(Files.getPosixFilePermissions(path(name))), name);
        }
    }

    @Test
    @Timeout(300)
    void aBackupWhileAnImportRunsIsAWholeLedger() throws Exception {
        int batches = 60;
        LedgerFile.open(path("busy.db")).close();
        ExecutorService writer = Executors.newSingleThreadExecutor();
        List<Integer> sizes = new ArrayList<>();
        try {
            Callable<Integer> writing = () -> {
                try (LedgerFile ledger = LedgerFile.open(path("busy.db"))) {
                    for (int n = 0; n < batches; n++) {
                        ledger.appendRides(List.of(LedgerFileTest.delivery(2 * n), LedgerFileTest.delivery(2 * n + 1)));
                    }
                    return batches;
                }
            };
            Future<Integer> done = writer.submit(writing);
            for (int i = 0; !done.isDone() || i == 0; i++) {
                Path copy = path("copy-" + i + ".db");
                try (LedgerFile ledger = LedgerFile.openReadOnly(path("busy.db"))) {
                    ledger.backup(copy);
                }
                try (LedgerFile ledger = LedgerFile.openReadOnly(copy)) {
                    assertEquals(List.of(), ledger.integrityCheck());
                    sizes.add(ledger.load().rides().size());
                }
            }
            assertEquals(batches, done.get());
        } finally {
            writer.shutdownNow();
        }
        for (int i = 0; i < sizes.size(); i++) {
            assertEquals(0, sizes.get(i) % 2, "half a batch in " + sizes);
            assertTrue(i == 0 || sizes.get(i) >= sizes.get(i - 1), "a later copy holds less: " + sizes);
        }
    }
}
