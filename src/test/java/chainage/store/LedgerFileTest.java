package chainage.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import chainage.analysis.Snapshot;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.quantity.ContentDigest;
import chainage.ride.FiledRide;
import chainage.ride.PowerTrace;
import chainage.ride.Ride;
import chainage.store.file.LedgerException;
import chainage.store.row.EventCodecTest;
import chainage.store.row.PackedPowerTest;
import chainage.store.row.RowSum;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

public class LedgerFileTest {
    private static final Instant NOW = Instant.parse("2026-03-01T08:00:00.250Z");

    @TempDir
    Path folder;

    private Path path() {
        return folder.resolve("ledger.db");
    }

    static Delivery delivery(String path, List<Ride> rides, ContentDigest digest) {
        return new Delivery(new Source(path, 10, 20, digest, Source.Verdict.IMPORTED, "", "", 0), rides);
    }

    /** Two recordings of one time, and a third ride alone, each with power. */
    private static List<Ride> powered() {
        List<Ride> rides = new ArrayList<>();
        for (int n = 1; n <= 3; n++) {
            Ride r = new RandomFacts(n).ride(n);
            rides.add(new Ride(
                    r.key(),
                    r.format(),
                    NOW.plusSeconds(n == 3 ? 900_000 : 7 * n),
                    3600,
                    3000,
                    r.distance(),
                    new Ride.Effort(Double.NaN, 17, 200, 8, 3600),
                    r.activity(),
                    r.pedalling(),
                    r.devices(),
                    List.of(),
                    r.labels(),
                    List.of(),
                    r.remarks(),
                    r.salvaged(),
                    r.offset(),
                    PackedPowerTest.random(new Random(n))));
        }
        return rides;
    }

    private static Delivery powered(Ride ride) {
        return delivery(
                "/rides/" + ride.key().id() + ".fit", List.of(ride), ride.key().digest());
    }

    private static List<PowerTrace> traces(LedgerFile ledger) throws IOException {
        return ledger.load().rides().stream().map(r -> r.ride().power()).toList();
    }

    /** A trace alone tells nothing, and most rides are alone. */
    @Test
    void ofRidesThatOverlapThePowerIsReadByTheMinute() throws IOException {
        List<Ride> rides = powered();
        try (LedgerFile ledger = LedgerFile.open(path())) {
            ledger.appendRides(rides.stream().map(LedgerFileTest::powered).toList());
            assertEquals(List.of(rides.get(0).power(), rides.get(1).power(), PowerTrace.NONE), traces(ledger));
        }
    }

    /** As of files that an earlier program read. */
    @Test
    void aRideThatIsKeptWithoutItsPowerGetsItWhenItComesAgain() throws IOException {
        List<Ride> rides = powered();
        try (LedgerFile ledger = LedgerFile.open(path())) {
            ledger.appendRides(rides.stream()
                    .map(r -> powered(r.withPower(PowerTrace.NONE)))
                    .toList());
            assertEquals(Collections.nCopies(3, PowerTrace.NONE), traces(ledger));
            List<FiledRide> before = ledger.load().rides();
            ledger.appendRides(rides.stream().map(LedgerFileTest::powered).toList());
            assertEquals(List.of(rides.get(0).power(), rides.get(1).power(), PowerTrace.NONE), traces(ledger));
            assertEquals(
                    before,
                    ledger.load().rides().stream()
                            .map(r -> new FiledRide(r.ride().withPower(PowerTrace.NONE), r.paths()))
                            .toList());
            assertEquals(List.of(), ledger.integrityCheck());
        }
    }

    public static Delivery delivery(int number) {
        Ride ride = new RandomFacts(number).ride(number);
        return delivery("/rides/" + number + ".fit", List.of(ride), ride.key().digest());
    }

    @Test
    void everyKindOfEntryIsKeptInOrderAndNumberedFromOne() throws IOException {
        List<Event> events = new ArrayList<>();
        EventCodecTest.everyKindOfEvent().forEach(type -> events.add(new RandomFacts(7).event(type)));
        try (LedgerFile ledger = LedgerFile.open(path())) {
            List<Entry> first = ledger.append(events.subList(0, 3), NOW);
            List<Entry> rest = ledger.append(events.subList(3, events.size()), NOW.plusSeconds(1));
            assertEquals(1, first.get(0).number());
            assertEquals(4, rest.get(0).number());
            assertEquals(NOW.plusSeconds(1), rest.get(0).recorded());
            List<Entry> all = new ArrayList<>(first);
            all.addAll(rest);
            assertEquals(all, ledger.load().entries());
        }
        try (LedgerFile ledger = LedgerFile.openReadOnly(path())) {
            assertEquals(
                    events, ledger.load().entries().stream().map(Entry::event).toList());
        }
    }

    @Test
    void ridesComeBackAsTheyWere() throws IOException {
        List<Ride> rides = new ArrayList<>();
        try (LedgerFile ledger = LedgerFile.open(path())) {
            for (int n = 0; n < 200; n++) {
                Delivery delivery = delivery(n);
                rides.addAll(delivery.rides());
                ledger.appendRides(List.of(delivery));
            }
            List<Ride> loaded =
                    ledger.load().rides().stream().map(FiledRide::ride).toList();
            assertEquals(rides.size(), loaded.size());
            for (Ride ride : rides) {
                assertTrue(loaded.contains(ride), () -> "lost or changed: " + ride);
            }
            for (int i = 1; i < loaded.size(); i++) {
                assertFalse(loaded.get(i).start().isBefore(loaded.get(i - 1).start()));
            }
        }
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void anyOrderAndBatchingGiveTheSameSnapshot(long seed) throws IOException {
        List<Delivery> deliveries = new ArrayList<>();
        for (int n = 0; n < 30; n++) {
            deliveries.add(delivery(n));
        }
        // The same contents under other paths.
        for (int n = 0; n < 10; n++) {
            Delivery first = delivery(n);
            deliveries.add(delivery(
                    "/copy/" + n, first.rides(), first.rides().get(0).key().digest()));
        }
        Snapshot expected;
        try (LedgerFile ledger = LedgerFile.open(path())) {
            ledger.appendRides(deliveries);
            expected = ledger.load();
        }
        Random random = new Random(seed);
        Collections.shuffle(deliveries, random);
        try (LedgerFile ledger = LedgerFile.open(folder.resolve("other.db"))) {
            for (int at = 0; at < deliveries.size(); ) {
                int end = Math.min(deliveries.size(), at + 1 + random.nextInt(7));
                ledger.appendRides(deliveries.subList(at, end));
                ledger.appendRides(deliveries.subList(at, end));
                at = end;
            }
            assertEquals(expected, ledger.load(), "seed " + seed);
        }
        assertEquals(30, expected.rides().size());
        assertEquals(
                10, expected.rides().stream().filter(r -> r.paths().size() == 2).count());
    }

    @Test
    void aKnownContentUnderANewPathOnlyAddsThePath() throws IOException {
        Delivery first = delivery(1);
        ContentDigest digest = first.rides().get(0).key().digest();
        try (LedgerFile ledger = LedgerFile.open(path())) {
            ledger.appendRides(List.of(first));
            assertEquals(
                    Source.Verdict.IMPORTED,
                    ledger.seen(NOW).known(digest).orElseThrow().verdict());
            ledger.appendRides(List.of(new Delivery(
                    new Source("/a/moved.fit", 5, 6, digest, Source.Verdict.KNOWN, "same content", "", 0), List.of())));
            FiledRide only = ledger.load().rides().get(0);
            assertEquals(List.of("/a/moved.fit", "/rides/1.fit"), only.paths());
            assertTrue(ledger.seen(NOW).unchanged("/a/moved.fit", 5, 6).isPresent());
            assertTrue(ledger.seen(NOW).unchanged("/a/moved.fit", 5, 7).isEmpty());
            assertTrue(ledger.seen(NOW).unchanged("/a/moved.fit", 4, 6).isEmpty());
            assertTrue(ledger.seen(NOW).unchanged("/a/other.fit", 5, 6).isEmpty());
        }
    }

    @Test
    void aPathThatHoldsWhatItHeldKeepsItsVerdict() throws IOException {
        Delivery first = delivery(1);
        Source before = new Source(
                "/rides/1.fit", 10, 20, first.source().digest(), Source.Verdict.IMPORTED, "part 2 refused", "m", 1);
        try (LedgerFile ledger = LedgerFile.open(path())) {
            ledger.appendRides(List.of(new Delivery(before, first.rides())));
            Source touched =
                    new Source("/rides/1.fit", 10, 99, before.digest(), Source.Verdict.KNOWN, "same content", "", 0);
            ledger.appendRides(List.of(new Delivery(touched, List.of())));
            Source kept = new Source(
                    "/rides/1.fit", 10, 99, before.digest(), Source.Verdict.IMPORTED, "part 2 refused", "m", 1);
            assertEquals(
                    kept, ledger.seen(NOW).unchanged("/rides/1.fit", 10, 99).orElseThrow());
        }
    }

    @Test
    void aPathIsEvidenceForARideEvenAfterTheFileHoldsAnother() throws IOException {
        Delivery first = delivery(1);
        Ride second = new RandomFacts(2).ride(2);
        try (LedgerFile ledger = LedgerFile.open(path())) {
            ledger.appendRides(List.of(first));
            ledger.appendRides(List.of(
                    delivery("/rides/1.fit", List.of(second), second.key().digest())));
            assertTrue(ledger.load().rides().stream().allMatch(r -> r.paths().equals(List.of("/rides/1.fit"))));
        }
    }

    @Test
    void refusedSourcesAreListedUntilTheyAreReadAfresh() throws IOException {
        ContentDigest digest = new RandomFacts(1).ride(1).key().digest();
        Source bad =
                new Source("/b.fit", 1, 2, digest, Source.Verdict.REFUSED, "the CRC is wrong", "export it again", 0);
        Source partly = new Source("/a.fit", 1, 2, null, Source.Verdict.IMPORTED, "part 2 refused", "", 1);
        try (LedgerFile ledger = LedgerFile.open(path())) {
            ledger.appendRides(List.of(new Delivery(bad, List.of()), new Delivery(partly, List.of())));
            assertEquals(List.of(partly, bad), ledger.refused());
            Ride good = new RandomFacts(2).ride(2);
            ledger.appendRides(
                    List.of(delivery("/b.fit", List.of(good), good.key().digest())));
            assertEquals(List.of(partly), ledger.refused());
        }
    }

    @Test
    void entriesThatLeftAnArchiveAreForgottenAndOthersKept() throws IOException {
        List<String> paths = List.of("/a.zip!/gone", "/a.zip!/b.zip!/gone", "/a.zip", "/a.zip2", "/a.zi", "/a.zip!0");
        try (LedgerFile ledger = LedgerFile.open(path())) {
            for (String path : paths) {
                ledger.appendRides(List.of(plain(path, 1, Source.Verdict.REFUSED)));
            }
            ledger.appendRides(List.of(
                    plain("/a.zip!/new", 2, Source.Verdict.REFUSED), plain("/a.zip", 2, Source.Verdict.ARCHIVE)));
            assertEquals(
                    List.of("/a.zi", "/a.zip!/new", "/a.zip!0", "/a.zip2"),
                    ledger.refused().stream().map(Source::path).toList());
        }
    }

    private static Delivery plain(String path, long modified, Source.Verdict verdict) {
        return new Delivery(new Source(path, 1, modified, null, verdict, "", "", 0), List.of());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "update entry set recorded = 0",
                "delete from entry",
                "insert into entry values (5, 5, 0, 'undone', '{}', 0)",
                "insert into entry values (1, 1, 0, 'undone', '{}', 0)",
                "insert into entry values (3, 3, 0, '', '{}', 0)",
                "insert into entry values (3, 3, 0, 'undone', 'no json', 0)",
                "insert or replace into entry values (2, 2, 0, 'undone', '{}', 0)",
                "update ride set metres = 0",
                "delete from ride",
                "update place set path = ''",
                "delete from place",
                "insert into place values (77, '/x', 0)",
                "insert into observation values ('', 0, '', 77, 0, null, '', null, null, null, null, 0)"
            })
    void factsCannotBeChangedBehindOurBack(String statement) throws IOException, SQLException {
        Snapshot before;
        try (LedgerFile ledger = LedgerFile.open(path())) {
            ledger.append(List.of(new Event.Undone(1), new Event.Undone(2)), NOW);
            ledger.appendRides(List.of(delivery(1)));
            before = ledger.load();
        }
        assertThrows(SQLException.class, () -> sql(path(), "pragma foreign_keys = on", statement));
        try (LedgerFile ledger = LedgerFile.open(path())) {
            assertEquals(before, ledger.load());
        }
    }

    @Test
    void aDecisionThatFailsWritesNothing() throws IOException {
        try (LedgerFile ledger = LedgerFile.open(path())) {
            ledger.append(List.of(new Event.Undone(1)), NOW);
            assertThrows(
                    java.util.zip.DataFormatException.class,
                    () -> ledger.<String, java.util.zip.DataFormatException>update(NOW, snapshot -> {
                        throw new java.util.zip.DataFormatException("no");
                    }));
            // The second event cannot be encoded, so the first is taken back with it.
            assertThrows(
                    IllegalArgumentException.class,
                    () -> ledger.append(
                            List.of(new Event.Undone(2), new Event.SpeedBandSet(Double.NaN, Double.NaN)), NOW));
            assertEquals(1, ledger.load().entries().size());
            LedgerFile.Written<String> written = ledger.update(
                    NOW,
                    snapshot -> new LedgerFile.Decision<>(
                            List.of(new Event.Undone(snapshot.entries().size())), "done"));
            assertEquals("done", written.answer());
            assertEquals(1, written.before().entries().size());
            assertEquals(new Event.Undone(1), written.entries().get(0).event());
            assertEquals(2, ledger.load().entries().size());
        }
    }

    @Test
    void aBatchThatFailsHalfwayLeavesNothing() throws IOException {
        Ride ride = new RandomFacts(3).ride(3);
        try (LedgerFile ledger = LedgerFile.open(path())) {
            Delivery second = new Delivery(
                    new Source("/x", 1, 1, ride.key().digest(), Source.Verdict.ARCHIVE, "", "", 0), List.of(ride));
            // An archive has no content of its own, and the schema holds to that.
            assertThrows(IllegalStateException.class, () -> ledger.appendRides(List.of(delivery(1), second)));
            assertEquals(List.of(), ledger.load().rides());
            ledger.appendRides(List.of(delivery(1)));
            assertEquals(1, ledger.load().rides().size());
        }
    }

    @Test
    void aLedgerAtRestIsOneFileThatOnlyItsOwnerReads() throws IOException {
        Path ledger = folder.resolve("new folder/Länge der Kette 鏈 #1 100%25?.db");
        try (LedgerFile open = LedgerFile.open(ledger)) {
            open.append(List.of(new Event.Undone(1)), NOW);
        }
        try (LedgerFile open = LedgerFile.openReadOnly(ledger)) {
            assertEquals(1, open.load().entries().size());
        }
        assertEquals(List.of(ledger), list(ledger.getParent()));
        assumeTrue(Files.getFileStore(folder).supportsFileAttributeView("posix"));
        assertEquals("rw-------", PosixFilePermissions.toString(Files.getPosixFilePermissions(ledger)));
    }

    public static List<Path> list(@Nullable Path folder) throws IOException {
        try (var files = Files.list(folder)) {
            return files.sorted().toList();
        }
    }

    @Test
    void readingNeverMakesALedger() throws IOException {
        assertThrows(NoSuchFileException.class, () -> LedgerFile.openReadOnly(path()));
        assertEquals(List.of(), list(folder));
        LedgerFile.open(path()).close();
        try (LedgerFile ledger = LedgerFile.openReadOnly(path())) {
            LedgerException e =
                    assertThrows(LedgerException.class, () -> ledger.append(List.of(new Event.Undone(1)), NOW));
            assertEquals(LedgerException.Kind.READ_ONLY, e.kind());
        }
    }

    @Test
    void anEmptyFileBecomesALedger() throws IOException {
        Files.createFile(path());
        assertEquals(
                LedgerException.Kind.READ_ONLY,
                assertThrows(LedgerException.class, () -> LedgerFile.openReadOnly(path()))
                        .kind());
        try (LedgerFile ledger = LedgerFile.open(path())) {
            assertEquals(List.of(), ledger.load().entries());
            assertEquals(List.of(), ledger.integrityCheck());
        }
    }

    @Test
    void damageIsSaidSo() throws IOException {
        try (LedgerFile ledger = LedgerFile.open(path())) {
            for (int n = 0; n < 300; n++) {
                ledger.appendRides(List.of(delivery(n)));
            }
        }
        byte[] bytes = Files.readAllBytes(path());
        // The first pages, which hold the schema, stay.
        Arrays.fill(bytes, bytes.length / 2, bytes.length, (byte) 0x5a);
        Files.write(path(), bytes);
        try (LedgerFile ledger = LedgerFile.openReadOnly(path())) {
            LedgerException e = assertThrows(LedgerException.class, ledger::load);
            assertEquals(LedgerException.Kind.CORRUPT, e.kind());
            assertFalse(ledger.integrityCheck().isEmpty());
        }
    }

    @Test
    void anEntryThatCannotBeUnderstoodIsSaidSo() throws IOException, SQLException {
        LedgerFile.open(path()).close();
        sql(
                path(),
                "insert into entry values (1, 1, 0, 'undone', '{}', row_sum(1, 1, 0, 'undone', '{}'))",
                "insert into entry values (2, 2, 0, 'undone', '{\"target\":1}', row_sum(2, 2, 0, 'undone', '{\"target\":1}'))");
        List<String> told = new ArrayList<>();
        try (LedgerFile ledger = LedgerFile.openReadOnly(path(), told::add)) {
            assertEquals(1, ledger.load().entries().size());
        }
        assertEquals(
                List.of(path()
                        + " is damaged, and what is damaged is left out: entry 1 cannot be understood (field target"
                        + " is missing); what to do: chainage check"),
                told);
    }

    /** A later program may know more kinds of facts; to answer without one would be to answer wrong. */
    @Test
    void anEntryOfAnUnknownKindIsNotPassedOver() throws IOException, SQLException {
        LedgerFile.open(path()).close();
        sql(path(), "insert into entry values (1, 1, 0, 'polished', '{}', row_sum(1, 1, 0, 'polished', '{}'))");
        try (LedgerFile ledger = LedgerFile.openReadOnly(path())) {
            LedgerException e = assertThrows(LedgerException.class, ledger::load);
            assertEquals(LedgerException.Kind.CORRUPT, e.kind());
            assertTrue(e.what().contains("entry 1"), e.what());
        }
    }

    /** Runs statements past the store, as another program could. */
    public static void sql(Path path, String... statements) throws SQLException {
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + path);
                Statement statement = connection.createStatement()) {
            RowSum.register(connection);
            for (String s : statements) {
                statement.executeUpdate(s);
            }
        }
    }

    /**
     * Turns a bit of a value, as a disk might; where it is null, makes it something.
     *
     * @return false where the value cannot be such, or another row is called so
     */
    static boolean turnBit(Path path, String table, String column, int bit) throws SQLException {
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + path);
                Statement statement = connection.createStatement()) {
            statement.execute("pragma foreign_keys = off");
            statement.execute("pragma ignore_check_constraints = on");
            String there = " from " + table + " order by " + column + " is null limit 1";
            Object value;
            try (ResultSet row = statement.executeQuery("select " + column + there)) {
                assertTrue(row.next());
                value = row.getObject(1);
            }
            try (PreparedStatement update = connection.prepareStatement(
                    "update or ignore " + table + " set " + column + " = ? where " + column + " is ?")) {
                update.setObject(1, turned(value, bit));
                update.setObject(2, value);
                return update.executeUpdate() > 0;
            }
        }
    }

    private static Object turned(Object value, int bit) {
        if (value instanceof Double d) {
            return Double.longBitsToDouble(Double.doubleToRawLongBits(d) ^ 1L << bit);
        } else if (value instanceof Number n) {
            return n.longValue() ^ 1L << bit;
        } else if (value instanceof byte[] bytes) {
            byte[] other = bytes.clone();
            other[bit % bytes.length] ^= (byte) (1 << bit % 8);
            return other;
        } else if (value instanceof String s && !s.isEmpty()) {
            char[] other = s.toCharArray();
            other[bit % other.length] ^= (char) (1 << bit % 7);
            return new String(other);
        }
        return value == null ? 0 : "x";
    }
}
