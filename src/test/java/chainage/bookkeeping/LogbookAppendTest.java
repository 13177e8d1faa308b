package chainage.bookkeeping;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.cli.Run;
import chainage.ledger.Entry;
import chainage.ledger.Event;
import chainage.ledger.Ledger;
import chainage.store.LedgerFile;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** A logbook that is written along: file and ledger stay one, whatever happens between the two. */
class LogbookAppendTest {
    private static final Instant NOW = Instant.parse("2026-06-01T12:00:00Z");

    static IntStream seeds() {
        return IntStream.rangeClosed(1, Integer.getInteger("append.sequences", 1));
    }

    @TempDir
    Path dir = Path.of("");

    private Path exports = Path.of("");
    private Path book = Path.of("");
    private int second;

    @BeforeEach
    void season() throws IOException {
        exports = Files.createDirectory(dir.resolve("exports"));
        book = exports.resolve("season.txt");
        for (int day = 1; day < 10; day++) {
            Files.writeString(exports.resolve("r" + day + ".gpx"), ride(day));
        }
        typed("import", exports.toString());
        typed("bike", "add", "Dunlin");
        typed("chain", "add", "Amber", "--speeds", "11");
        typed("chain", "add", "Ochre", "--speeds", "11");
        typed("install", "Amber", "Dunlin", "--on", "2026-03-01");
    }

    private static String ride(int day) {
        StringBuilder track = new StringBuilder(
                "<gpx xmlns=\"http://www.topografix.com/GPX/1/1\"><trk>" + "<type>cycling</type><trkseg>");
        for (int i = 0; i < 61; i++) {
            track.append(String.format(
                    Locale.ROOT,
                    "<trkpt lat=\"0\" lon=\"%.5f\"><time>2026-05-0%dT08:%02d:%02dZ</time></trkpt>",
                    i * 0.004,
                    day,
                    i % 60,
                    i / 60));
        }
        return track.append("</trkseg></trk></gpx>").toString();
    }

    /** A second later than the command before. */
    private Run typed(String... words) {
        return typedInto("ledger.sqlite", words);
    }

    private Run typedInto(String ledger, String... words) {
        List<String> all =
                new ArrayList<>(List.of("--ledger", dir.resolve(ledger).toString()));
        all.addAll(List.of(words));
        return Run.at(NOW.plusSeconds(second++), all.toArray(String[]::new));
    }

    private List<Entry> entries(String ledger) throws IOException {
        try (LedgerFile file = LedgerFile.openReadOnly(dir.resolve(ledger))) {
            return file.load().entries();
        }
    }

    private List<String> lines() throws IOException {
        return Files.readAllLines(book).stream()
                .filter(l -> !l.isBlank() && !l.startsWith("#"))
                .skip(1)
                .toList();
    }

    private String last() throws IOException {
        List<String> lines = Files.readAllLines(book);
        return lines.get(lines.size() - 1);
    }

    /** An import finds nothing that it did not know, and the file alone states what the ledger does. */
    private void fileAndLedgerAreOne(String why) throws IOException {
        List<Entry> before = entries("ledger.sqlite");
        Run again = typed("import", exports.toString());
        List<Entry> after = entries("ledger.sqlite");
        List<Entry> more = after.subList(before.size(), after.size());
        assertEquals(
                List.of(),
                more.stream()
                        .map(Entry::event)
                        .filter(e -> !(e instanceof Event.LogbookRead))
                        .toList(),
                why + again.out() + again.err());
        assertEquals(0, again.code(), why + again.err());
        Files.deleteIfExists(dir.resolve("anew.sqlite"));
        Run anew = typedInto("anew.sqlite", "import", exports.toString());
        assertEquals(0, anew.code(), why + anew.err());
        assertTrue(Ledger.of(after).means(Ledger.of(entries("anew.sqlite"))), why + Files.readString(book));
        assertEquals(due("ledger.sqlite"), due("anew.sqlite"), why);
    }

    private String due(String ledger) {
        return Run.at(NOW.plusSeconds(100_000), "--ledger", dir.resolve(ledger).toString(), "due", "--json")
                .out();
    }

    @Test
    void whatIsTypedStandsInTheFileAsItWasMeant() throws IOException {
        typed("logbook", "append", book.toString());
        assertEquals(4, lines().size());
        typed("treat", "amber", "hot-wax", "--minutes", "39", "--on", "yesterday");
        assertEquals("2026-05-31 treat amber hot-wax --cleaning none --minutes 39", last());
        typed("tag", "last", "muddy");
        assertTrue(last().matches("2026-06-01 12:00:\\d\\d tag [0-9a-f]{10} muddy"), last());
        typed("install", "Ochre", "Dunlin", "--on", "2026-05-04 14:30", "--swap");
        assertEquals("2026-05-04 14:30 install Ochre Dunlin --swap", last());
        typed("measure", "Ochre", "0.02 %", "0.03%");
        assertTrue(last().matches("2026-06-01 12:00:\\d\\d measure Ochre 0.02 ?% 0.03%|.*\"0.02 %\" 0.03%"), last());
        typed("product", "add", "Kettle \"Block\"", "--method", "hot-wax", "--price", "27.50 EUR");
        assertTrue(
                last().endsWith(" product add \"Kettle \\\"Block\\\"\" --method hot-wax --price \"27.50 EUR\""),
                last());
        typed("assign", "2026-05-01..2026-05-03", "--bike", "Dunlin");
        assertEquals(3, last().split("[0-9a-f]{10}", -1).length - 1, last());
        typed("bike", "set", "Dunlin", "--chains-from", "yesterday");
        assertTrue(last().endsWith("bike set Dunlin --chains-from 2026-05-31"), last());
        typed("chain", "rename", "Ochre", "Umber");
        typed("remark", "Umber", "note", "--", "-- quiet # now");
        assertTrue(last().endsWith(" -- Umber note \"-- quiet # now\""), last());
        fileAndLedgerAreOne("");
        assertTrue(typed("log").out().contains("season.txt:"));
    }

    @Test
    void whatIsTakenBackIsStruckAndComesBack() throws IOException {
        typed("logbook", "append", book.toString());
        typed("treat", "--on", "2026-05-03", "Amber", "hot-wax");
        typed("remark", "Amber", "note", "quiet", "--on", "2026-05-04");
        typed("undo");
        assertEquals("# taken back: 2026-05-04 remark Amber note quiet", last());
        fileAndLedgerAreOne("struck ");
        typed("redo");
        assertEquals("2026-05-04 remark Amber note quiet", last());
        fileAndLedgerAreOne("brought back ");
        // A line of a time before, too.
        typed("undo", "4");
        assertTrue(Files.readString(book).contains("# taken back: 2026-03-01 chain add Ochre"), Files.readString(book));
    }

    @Test
    void whatGetsAnotherDateIsWrittenWithIt() throws IOException {
        typed("logbook", "append", book.toString());
        typed("treat", "--on", "2026-05-03", "Amber", "hot-wax", "--minutes", "30");
        long no = entries("ledger.sqlite").stream()
                .filter(e -> e.event() instanceof Event.Treated)
                .findFirst()
                .orElseThrow()
                .number();
        Run run = typed("redate", String.valueOf(no), "--on", "2026-05-05 18:00");
        assertTrue(run.out().contains("entry " + no + " gives way to "), run.out() + run.err());
        assertEquals("2026-05-05 18:00 treat Amber hot-wax --cleaning none --minutes 30", last());
        assertTrue(Files.readString(book).contains("# taken back: 2026-05-03 treat Amber"), Files.readString(book));
        fileAndLedgerAreOne("");
        run = typed("undo");
        assertTrue(run.out().contains("in force again: " + no), run.out());
        assertTrue(lines().contains("2026-05-03 treat Amber hot-wax --cleaning none --minutes 30"), lines().toString());
        assertEquals(5, lines().size(), lines().toString());
        fileAndLedgerAreOne("undone ");
        typed("redo");
        assertTrue(
                lines().contains("2026-05-05 18:00 treat Amber hot-wax --cleaning none --minutes 30"),
                lines().toString());
        assertEquals(5, lines().size(), lines().toString());
        fileAndLedgerAreOne("redone ");
    }

    @Test
    void whatIsLeftOfALineStandsAlone() throws IOException {
        typed("logbook", "append", book.toString());
        typed("install", "Ochre", "Dunlin", "--swap", "--on", "2026-05-04 14:30");
        typed("treat", "--on", "2026-05-05", "Amber", "Ochre", "drip-wax");
        typed("remark", "Ochre", "note", "quiet", "--on", "2026-05-06");
        long treated = entries("ledger.sqlite").stream()
                .filter(e -> e.event() instanceof Event.Treated)
                .findFirst()
                .orElseThrow()
                .number();
        typed("undo", String.valueOf(treated));
        List<String> lines = lines();
        assertEquals("2026-05-05 treat Ochre drip-wax --cleaning none", lines.get(lines.size() - 2), lines.toString());
        fileAndLedgerAreOne("a part ");
        typed("redo");
        assertTrue(lines().contains("2026-05-05 treat Amber drip-wax --cleaning none"), lines().toString());
        fileAndLedgerAreOne("again whole ");
        long installed = entries("ledger.sqlite").stream()
                .filter(e -> e.event() instanceof Event.Installed)
                .mapToLong(Entry::number)
                .max()
                .orElseThrow();
        typed("undo", String.valueOf(installed));
        assertTrue(lines().contains("2026-05-04 14:30 remove Amber"), lines().toString());
        fileAndLedgerAreOne("of a swap ");
    }

    @Test
    void aFileThatCannotBeWrittenIsSaidAndWrittenLater() throws IOException {
        typed("logbook", "append", book.toString());
        Path away = dir.resolve("away.txt");
        Files.move(book, away);
        Run run = typed("treat", "--on", "2026-05-03", "Amber", "hot-wax");
        assertEquals(0, run.code());
        assertTrue(run.err().contains("it is not there") && run.err().contains("1 line waits"), run.err());
        assertTrue(run.out().contains("to take it back: chainage undo"), run.out());
        Files.move(away, book);
        typed("remark", "Amber", "note", "quiet", "--on", "2026-05-04");
        assertEquals("2026-05-03 treat Amber hot-wax --cleaning none", lines().get(4));
        assertEquals(6, lines().size());
        fileAndLedgerAreOne("");
    }

    @Test
    void anEditorThatSavesOverItLosesNothing() throws IOException {
        typed("logbook", "append", book.toString());
        byte[] opened = Files.readAllBytes(book);
        typed("treat", "--on", "2026-05-03", "Amber", "hot-wax");
        Files.write(book, opened);
        Files.writeString(book, "2026-05-05 remark Amber note heard\n", StandardOpenOption.APPEND);
        Run run = typed("import", exports.toString());
        assertEquals("2026-05-03 treat Amber hot-wax --cleaning none", last());
        assertTrue(run.err().contains("written again: 2026-05-03 treat Amber hot-wax"), run.err());
        fileAndLedgerAreOne("");
        // A line that was seen there, and is deleted, is meant.
        Files.write(book, opened);
        Run gone = typed("import", exports.toString());
        assertTrue(
                gone.out().contains("gone: 2026-05-03 treat Amber hot-wax --cleaning none"), gone.out() + gone.err());
    }

    @Test
    void aLineThatWasWrittenAndThenChangedIsOne() throws IOException {
        typed("logbook", "append", book.toString());
        typed("treat", "--on", "2026-05-03", "Amber", "hot-wax");
        Files.writeString(book, Files.readString(book).replace("hot-wax", "drip-wax"));
        typed("remark", "Amber", "note", "quiet", "--on", "2026-05-04");
        Run run = typed("import", exports.toString());
        assertTrue(
                run.out().contains("changed: 2026-05-03 treat Amber hot-wax --cleaning none → 2026-05-03 treat"),
                run.out());
        assertEquals(6, lines().size(), Files.readString(book));
        fileAndLedgerAreOne("");
    }

    @Test
    void lettersLineEndsAndPermissionsStayAsTheyAre() throws IOException {
        String text = "\ufeffchainage logbook\r\n# søn\r\n2026-03-01 bike add Otter --no-chain";
        Files.write(book, text.getBytes(StandardCharsets.UTF_16LE));
        Files.setPosixFilePermissions(book, PosixFilePermissions.fromString("rw-r-----"));
        typed("import", exports.toString());
        typed("logbook", "append", book.toString());
        typed("remark", "Amber", "note", "grün", "--on", "2026-05-04");
        String line = "\r\n2026-05-04 remark Amber note grün\r\n";
        assertEquals(text + line, Files.readString(book, StandardCharsets.UTF_16LE));
        typed("undo");
        assertEquals(
                text + line.replace("2026-", "# taken back: 2026-"), Files.readString(book, StandardCharsets.UTF_16LE));
        assertEquals("rw-r-----", PosixFilePermissions.toString(Files.getPosixFilePermissions(book)));
    }

    @Test
    @Timeout(300)
    void severalAtOnceLoseNothing() throws Exception {
        typed("logbook", "append", book.toString());
        List<Thread> threads = IntStream.range(0, 4)
                .mapToObj(i -> new Thread(() -> {
                    for (int n = 0; n < 5; n++) {
                        Run.at(
                                NOW,
                                "--ledger",
                                dir.resolve("ledger.sqlite").toString(),
                                "remark",
                                "Amber",
                                "note",
                                "t" + i + "n" + n,
                                "--on",
                                "2026-05-0" + (1 + i));
                    }
                }))
                .toList();
        threads.forEach(Thread::start);
        typed("import", exports.toString());
        for (Thread t : threads) {
            t.join();
        }
        assertEquals(24, lines().stream().distinct().count(), Files.readString(book));
        assertEquals(24, lines().size(), Files.readString(book));
        fileAndLedgerAreOne("");
    }

    /** Seeded sequences of commands, takings-back and edits by hand; a failure names its seed. */
    @ParameterizedTest
    @MethodSource("seeds")
    void whateverIsTypedFileAndLedgerAreOne(int seed) throws IOException {
        Random random = new Random(seed);
        typed("logbook", "append", book.toString());
        StringBuilder said = new StringBuilder("seed " + seed + "\n");
        for (int i = 0; i < 40; i++) {
            String[] words = command(random, entries("ledger.sqlite").size());
            if (random.nextInt(12) == 0) {
                Files.writeString(
                        book,
                        "2026-05-0" + (1 + random.nextInt(9)) + " remark Amber note hand" + i + "\n",
                        StandardOpenOption.APPEND);
                typed("import", exports.toString());
            }
            Run run = typed(words);
            said.append(run.code())
                    .append(' ')
                    .append(String.join(" ", words))
                    .append('\n')
                    .append(run.err());
            if (i % 20 == 19) {
                fileAndLedgerAreOne(said.toString());
            }
        }
        assertTrue(lines().size() > 15, said + Files.readString(book));
    }

    private static String[] command(Random random, int last) {
        String day = "2026-05-0" + (1 + random.nextInt(9));
        String chain = random.nextBoolean() ? "Amber" : "Ochre";
        int no = 1 + random.nextInt(last);
        return (switch (random.nextInt(27)) {
                    case 0, 1 -> "treat --on " + day + " " + chain + " hot-wax";
                    case 2 -> "treat Amber Ochre drip-wax --minutes 30 --on " + day;
                    case 3 -> "measure " + chain + " 0.0" + (1 + random.nextInt(9)) + "%";
                    case 4 -> "remark " + chain + " noisy --on " + day;
                    case 5 -> "tag last wet";
                    case 6 -> "tag " + day + " gritty";
                    case 7 -> "tag " + day + " --withdraw";
                    case 8 -> "install " + chain + " Dunlin --swap --on " + day;
                    case 9 ->
                        "install " + chain + " Dunlin --on 2026-04-0" + (1 + random.nextInt(4)) + " --until " + day;
                    case 10 -> "factors set treatment.wet.hot-wax " + (2 + random.nextInt(4));
                    case 11 -> "factors reset --all";
                    case 12 -> "assign " + day + " --" + (random.nextBoolean() ? "not-a-ride" : "withdraw");
                    case 13 -> "chain set " + chain + " --limit 0.6%";
                    case 14 -> "words set peat gritty";
                    case 15 -> "redo";
                    case 16, 17, 18 -> "redate " + no + " --on " + day;
                    case 19, 20 -> "undo " + no;
                    case 21 -> "meter set bike_power:400" + random.nextInt(3) + " --before-chain";
                    case 22 -> "settings set due-risk 0." + (1 + random.nextInt(4));
                    case 23 -> "chain rename " + chain + " Umber" + random.nextInt(3);
                    case 24 -> "bike set Dunlin --wheel 2.1" + random.nextInt(9) + "m --default";
                    case 25 -> "remove " + chain + " --on " + day;
                    default -> "undo";
                })
                .split(" ");
    }
}
