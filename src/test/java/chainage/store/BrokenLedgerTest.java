package chainage.store;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.analysis.Snapshot;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.ledger.Problem;
import chainage.ledger.Remark;
import chainage.ride.FiledRide;
import chainage.ride.PowerTrace;
import chainage.ride.Ride;
import chainage.store.file.LedgerException;
import chainage.store.row.Sql;
import chainage.weather.Air;
import chainage.weather.Observation;
import chainage.weather.Place;
import chainage.weather.Seen;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.Consumer;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** A good ledger broken in one way: exactly that fault is found, and named. */
class BrokenLedgerTest {
    private static final Instant NOW = Instant.parse("2026-03-01T08:00:00Z");

    /** What another program needs to say to get past our own guards. */
    private static final String UNGUARDED = "pragma foreign_keys = off; pragma ignore_check_constraints = on;"
            + " drop trigger entry_is_not_changed; drop trigger entry_is_not_deleted;"
            + " drop trigger ride_is_not_changed; drop trigger ride_is_not_deleted;"
            + " drop trigger place_is_not_changed; drop trigger place_is_not_deleted;"
            + " drop trigger entry_numbers_run_on;";

    /** Gives every row the sum of what it holds now, as a program would that means it. */
    static final String[] SUMS = Pattern.compile(
                    "^update (?:entry|content|ride|place|source|observation) set [^;]*;", Pattern.MULTILINE)
            .matcher(Sql.resource("006-sums.sql"))
            .results()
            .map(MatchResult::group)
            .toArray(String[]::new);

    @TempDir
    Path folder;

    private Path path() {
        return folder.resolve("ledger.db");
    }

    private void makeLedger() throws IOException {
        try (LedgerFile ledger = LedgerFile.open(path())) {
            ledger.append(
                    List.of(
                            new Event.ChainDescribed("Amber", 112, 11, null, null),
                            new Event.Remarked("Amber", NOW, Remark.NOISY, "since the rain"),
                            new Event.ChainDescribed("Moss", 112, 11, null, null),
                            new Event.Undone(2)),
                    NOW);
            for (int n = 0; n < 40; n++) {
                ledger.appendRides(List.of(LedgerFileTest.delivery(n)));
            }
            assertEquals(List.of(), ledger.integrityCheck());
        }
    }

    private static List<String> what(List<Fault> faults) {
        return faults.stream().map(Fault::what).toList();
    }

    private List<String> check() throws IOException {
        try (LedgerFile ledger = LedgerFile.openReadOnly(path())) {
            return what(ledger.integrityCheck());
        }
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
        # case                | how | the one fault
        a table is gone       | drop table source | its table source is missing
        a trigger is gone     | drop trigger ride_is_not_changed | its trigger ride_is_not_changed is missing
        an index is gone      | drop index observation_by_time | its index observation_by_time is missing
        a trigger was changed | drop trigger place_is_not_deleted; create trigger place_is_not_deleted before delete on place begin select 1; end | its trigger place_is_not_deleted was changed
        a column was added    | alter table content add column colour text | its table content was changed
        """)
    void whatTheSchemaLacksIsNamed(String title, String how, String fault) throws IOException, SQLException {
        makeLedger();
        LedgerFileTest.sql(path(), how);
        assertEquals(List.of(fault), check(), title);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
        # case                  | how | the one fault
        an entry is missing     | delete from entry where number = 3 | entry 3 is missing
        several are missing     | delete from entry where number in (2, 3) | entries 2 to 3 are missing
        of a later command      | update entry set command = 9 where number = 2 | entry 2 is of command 9, which cannot be
        a payload is no object  | update entry set payload = '[]' where number = 2 | entry 2 cannot be understood
        a payload is no JSON    | update entry set payload = '{"chain' where number = 2 | entry 2 cannot be understood
        a payload is empty      | update entry set payload = '' where number = 2 | entry 2 cannot be understood
        a name is a number      | update entry set payload = '{"chain":3,"at":"2026-03-01T08:00:00.000Z"}' where number = 2 | entry 2 cannot be understood
        a field is missing      | update entry set payload = '{"chain":"Amber"}' where number = 2 | entry 2 cannot be understood (field at is missing)
        a date is none          | update entry set payload = replace(payload, '2026-03', '2026-99') where number = 2 | entry 2 cannot be understood
        out of bounds           | update entry set payload = replace(payload, '2026-03', '1926-03') where number = 2 | entry 2 cannot be understood (field at: 1926-03-01T08:00:00Z is not in the years 1970 to 2099)
        an unknown kind         | update entry set kind = 'polished' where number = 1 | entry 1 cannot be understood (unknown kind of entry: polished)
        a content is missing    | delete from content where id = (select content from ride where number = 5) | a row of place points to a row of content that is not there; a row of ride points to a row of content that is not there; a row of source points to a row of content that is not there; a ride is missing
        a place points nowhere  | insert into place values (777, '/x', 0) | a row of place points to a row of content that is not there
        evidence is no object   | update ride set evidence = '[1]' where number = 7 | ride
        a ride is another       | update ride set id = '0123456789' where number = 7 | ride 0123456789 does not bear the name of its content
        an unknown outcome      | update content set outcome = 'lost' where id = 3 | what was made of a file's content cannot be understood
        a track is no numbers   | update ride set evidence = '{"trace":[[0,1-2,1,2]]}' where number = 7 | ride
        a negative distance     | update ride set metres = -1 where number = 7 | ride
        """)
    void whatIsWrongWithAFactIsNamed(String title, String how, String faults) throws IOException, SQLException {
        makeLedger();
        List<String> schema = schemaAfter(UNGUARDED);
        LedgerFileTest.sql(path(), "pragma foreign_keys = off", "pragma ignore_check_constraints = on", how);
        LedgerFileTest.sql(path(), SUMS);
        List<String> found = check().stream().filter(f -> !schema.contains(f)).toList();
        List<String> expected = List.of(faults.split("; ", -1));
        assertEquals(expected.size(), found.size(), title + ": " + found);
        for (int i = 0; i < expected.size(); i++) {
            assertTrue(found.get(i).startsWith(expected.get(i)), title + ": " + found);
        }
    }

    /** Takes the guards away, which is a fault itself, so that a fact can be broken. */
    private List<String> schemaAfter(String unguarded) throws IOException, SQLException {
        LedgerFileTest.sql(path(), unguarded);
        List<String> missing = check();
        assertEquals(7, missing.size(), missing.toString());
        return missing;
    }

    /** A track is read long after the ledger is closed; without it a ride is still one. */
    @ParameterizedTest
    @ValueSource(strings = {"1-2", "1.2.3", "--1", ""})
    void aTrackThatHoldsNoNumberIsLeftOutAndTold(String number) throws IOException, SQLException {
        makeLedger();
        LedgerFileTest.sql(
                path(),
                UNGUARDED,
                "update ride set evidence = '{}'",
                "update ride set evidence = '{\"trace\":[[0," + number + ",1,2]]}' where number in (7, 8)");
        LedgerFileTest.sql(path(), SUMS);
        List<String> told = new ArrayList<>();
        List<FiledRide> rides;
        try (LedgerFile ledger = LedgerFile.openReadOnly(path(), told::add)) {
            rides = ledger.load().rides();
        }
        assertEquals(40, rides.size());
        assertEquals(List.of(), told);
        rides.forEach(r -> assertEquals(List.of(), List.copyOf(r.ride().trace())));
        // Once, whatever else is looked at; check names all.
        assertEquals(1, told.size(), told.toString());
        assertTrue(told.get(0).contains("its track holds what cannot be"), told.get(0));
        assertEquals(
                2,
                check().stream()
                        .filter(f -> f.contains("its track holds what cannot be"))
                        .count());
    }

    /** Rows with the right sum, as another program would write them. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
        # case               | how | rides left
        a ride has no name   | update ride set id = ' ' where number = 7 | 39
        a name is a word     | update ride set id = 'Natterjack' where number = 7 | 39
        watts without end    | update ride set watts = -9e999 where number = 7 | 39
        a state has no stamp | update stamp set now = zeroblob(3) | 40
        """)
    void whatNoOneCanHaveMeantIsLeftOutOfAnswersAndExports(String title, String how, int left)
            throws IOException, SQLException {
        makeLedger();
        LedgerFileTest.sql(path(), UNGUARDED, how);
        LedgerFileTest.sql(path(), SUMS);
        List<String> told = new ArrayList<>();
        StringBuilder export = new StringBuilder();
        try (LedgerFile ledger = LedgerFile.open(path(), told::add)) {
            assertEquals(left, ledger.load().rides().size());
            ledger.load().rides().forEach(r -> r.ride().key().shortestId());
            ledger.append(List.of(new Event.Undone(1)), NOW);
            ledger.export(export);
        }
        assertEquals(left == 40 ? 0 : 3, told.size(), told.toString());
        Path whole = folder.resolve("whole.db");
        try (LedgerFile ledger = LedgerFile.open(whole)) {
            ledger.restore(new ByteArrayInputStream(export.toString().getBytes(StandardCharsets.UTF_8)), false);
            assertTrue(ledger.load().rides().size() >= left);
        } catch (ExportException e) {
            throw new AssertionError(e.hint(), e);
        }
    }

    @Test
    void aTableThatIsGoneIsNoMistakeOfOurs() throws IOException, SQLException {
        makeLedger();
        LedgerFileTest.sql(path(), "pragma foreign_keys = off", "drop table ride");
        try (LedgerFile ledger = LedgerFile.openReadOnly(path())) {
            LedgerException e = assertThrows(LedgerException.class, ledger::load);
            assertEquals(LedgerException.Kind.CORRUPT, e.kind());
            assertEquals(List.of("its table ride is missing"), dropTriggers(what(ledger.integrityCheck())));
        }
    }

    /** A table takes its triggers with it. */
    private static List<String> dropTriggers(List<String> found) {
        return found.stream().filter(f -> !f.startsWith("its trigger ride_")).toList();
    }

    @Test
    void anEntryThatTakesBackWhatIsNotThereIsAProblem() throws IOException {
        try (LedgerFile ledger = LedgerFile.open(path())) {
            ledger.append(List.of(new Event.Undone(5), new Event.Redated(2, NOW)), NOW);
            assertEquals(
                    List.of(new Problem.NotBefore(1, 5), new Problem.NotBefore(2, 2)),
                    Ledger.of(ledger.load().entries()).problems());
        }
    }

    /**
     * One bit flipped anywhere in the file: the facts are those that were written, or the one who asks is told, or it is
     * refused; never a fault of ours, and never another fact in silence.
     */
    @Test
    void aFlippedBitMakesNoOtherFactInSilence() throws IOException {
        makeLedger();
        byte[] sound = Files.readAllBytes(path());
        Random random = new Random(5);
        Snapshot before;
        try (LedgerFile ledger = LedgerFile.openReadOnly(path())) {
            before = ledger.load();
        }
        int told = 0;
        int refused = 0;
        for (int i = 0; i < 1_000; i++) {
            byte[] flipped = sound.clone();
            int at = random.nextInt(sound.length);
            int bit = 1 << random.nextInt(8);
            flipped[at] ^= (byte) bit;
            Files.write(path(), flipped);
            List<String> words = new ArrayList<>();
            try (LedgerFile ledger = LedgerFile.openReadOnly(path(), words::add)) {
                boolean same = ledger.load().equals(before);
                assertTrue(same || !words.isEmpty(), "bit " + bit + " of byte " + at + " made another fact");
                assertTrue(same || !ledger.integrityCheck().isEmpty(), "check finds nothing at " + at);
                told += words.isEmpty() ? 0 : 1;
            } catch (LedgerException e) {
                refused++;
            }
        }
        assertTrue(told > 100, told + " told, " + refused + " refused");
    }

    /** Each column of each table, a bit of each class turned: low and high in a number, in a letter, in raw bytes. */
    @ParameterizedTest
    @CsvSource({
        "entry,number",
        "entry,command",
        "entry,recorded",
        "entry,kind",
        "entry,payload",
        "entry,sum",
        "content,digest",
        "content,outcome",
        "content,reason",
        "content,mend",
        "content,ahead",
        "content,sum",
        "ride,content",
        "ride,session",
        "ride,id",
        "ride,format",
        "ride,start",
        "ride,elapsed",
        "ride,moving",
        "ride,metres",
        "ride,metres_from",
        "ride,sport",
        "ride,sub_sport",
        "ride,kind",
        "ride,indoor",
        "ride,ascent",
        "ride,celsius",
        "ride,watts",
        "ride,median_speed",
        "ride,samples",
        "ride,evidence",
        "ride,pedalling",
        "ride,sum",
        "place,content",
        "place,path",
        "place,sum",
        "source,path",
        "source,size",
        "source,modified",
        "source,content",
        "source,outcome",
        "source,reason",
        "source,mend",
        "source,refused_parts",
        "source,sum",
        "observation,station",
        "observation,at",
        "observation,place",
        "observation,entry",
        "observation,seconds",
        "observation,mm_an_hour",
        "observation,seen",
        "observation,celsius",
        "observation,humidity",
        "observation,wind",
        "observation,cloud",
        "observation,sum",
        "power,ride",
        "power,minutes",
        "power,sum",
    })
    void aBitTurnedInAnyColumnIsNamed(String table, String column) throws IOException, SQLException {
        makeLedger();
        try (LedgerFile ledger = LedgerFile.open(path())) {
            ledger.appendWeather(
                    new WeatherFeed<RuntimeException>() {
                        @Override
                        public String source() {
                            return "an example";
                        }

                        @Override
                        public void pour(Consumer<Observation> sink) {
                            sink.accept(new Observation(
                                    "EXAM",
                                    Place.of("1.5,-2.25"),
                                    NOW,
                                    3600,
                                    0.4,
                                    Seen.UNSTATED,
                                    new Air(7.5, 81, 3, 0.5)));
                        }
                    },
                    NOW);
            Ride powered = new RandomFacts(77)
                    .ride(77)
                    .withPower(new PowerTrace(29_000_000, List.of(new PowerTrace.Minute(60, 60, 201, 85))));
            ledger.appendRides(List.of(LedgerFileTest.delivery(
                    "/rides/77.fit", List.of(powered), powered.key().digest())));
            assertEquals(List.of(), ledger.integrityCheck());
        }
        LedgerFileTest.sql(
                path(), UNGUARDED, "drop trigger observation_is_not_changed; drop trigger power_is_not_changed");
        List<String> schema = check();
        byte[] bare = Files.readAllBytes(path());
        int turned = 0;
        for (int bit : new int[] {0, 3, 7, 15, 40, 54, 62}) {
            Files.write(path(), bare);
            if (LedgerFileTest.turnBit(path(), table, column, bit)) {
                turned++;
                List<String> found =
                        check().stream().filter(f -> !schema.contains(f)).toList();
                assertTrue(!found.isEmpty(), "bit " + bit + " of " + column);
            }
        }
        assertTrue(turned > 2, turned + " turned");
    }
}
