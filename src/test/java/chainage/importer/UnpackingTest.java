package chainage.importer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.zip.CRC32;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

@Timeout(300)
class UnpackingTest {
    private static final Instant NOW = Instant.parse("2026-03-01T08:00:00Z");
    private static final UnpackLimits SMALL = new UnpackLimits(4000, 2000, 20, 5000, 30, 3, 10_000, 4, 3, 2);

    @TempDir
    Path folder;

    private final KnownInMemory shelf = new KnownInMemory();

    private List<Outcome> outcomes(String name, byte[] content) throws IOException {
        Path file = folder.resolve(name);
        Files.write(file, content);
        Files.setLastModifiedTime(file, FileTime.from(NOW.minusSeconds(86_400)));
        Options options = new Options(2, NOW, (done, total, f) -> {}, () -> NOW, time -> {});
        return new Importer(Fake::decode, shelf, shelf, options, SMALL).run(List.of(file));
    }

    private List<String> lines(String name, byte[] content) throws IOException {
        return outcomes(name, content).stream()
                .map(o -> (o.file().replace(folder + "/", "") + " " + o.kind() + " " + o.reason()).strip())
                .toList();
    }

    @Test
    void anArchivesEntriesAreFilesOfTheirOwnInItsOrder() throws IOException {
        byte[] inner = Fake.zip(Fake.entry("y.gpx", "ride n=3"), Fake.entry("x.gpx", "ride n=4"));
        assertEquals(
                List.of(
                        "a.zip!/z/2.gpx IMPORTED",
                        "a.zip!/1.gpx.gz IMPORTED",
                        "a.zip!/in.zip!/y.gpx IMPORTED",
                        "a.zip!/in.zip!/x.gpx IMPORTED",
                        "a.zip!/in.zip ARCHIVE",
                        "a.zip!/notes.txt NOT_RIDE no FIT, GPX or TCX content",
                        "a.zip ARCHIVE"),
                lines(
                        "a.zip",
                        Fake.zip(
                                new Fake.Entry("z/", new byte[0]),
                                Fake.entry("z/2.gpx", "ride n=1"),
                                new Fake.Entry("1.gpx.gz", Fake.gzip(Fake.content("ride n=2"))),
                                new Fake.Entry("in.zip", inner),
                                new Fake.Entry("notes.txt", new byte[] {1}),
                                Fake.entry("__MACOSX/z/._2.gpx", "ride n=5"),
                                Fake.entry("z/._2.gpx", "ride n=6"),
                                Fake.entry(".trash/2.gpx", "ride n=7"))));
    }

    @Test
    void anEmptyArchiveIsAnArchive() throws IOException {
        assertEquals(List.of("a.zip ARCHIVE"), lines("a.zip", Fake.zip()));
    }

    @ParameterizedTest
    @CsvSource({
        "../x.gpx",
        "a/../../x.gpx",
        "/etc/x.gpx",
        "C:x.gpx",
        "c:\\x.gpx",
        "\\\\host\\x.gpx",
        "a\\..\\x.gpx",
        ".."
    })
    void namesThatLeadOutOfTheArchiveAreRefused(String name) throws IOException {
        assertEquals(
                List.of(
                        "a.zip!/" + name + " REFUSED the entry's name leads out of the archive",
                        "a.zip!/good.gpx IMPORTED",
                        "a.zip ARCHIVE"),
                lines("a.zip", Fake.zip(Fake.entry(name, "ride n=1"), Fake.entry("good.gpx", "ride"))));
    }

    @ParameterizedTest
    @CsvSource({"'a b.gpx'", "..a.gpx", "a...gpx", "Straße 鏈.gpx"})
    void oddNamesThatStayInsideAreFine(String name) throws IOException {
        List<String> lines = lines("a.zip", Fake.zip(Fake.entry("x/" + name, "ride")));
        boolean hidden = name.startsWith(".");
        assertEquals(
                hidden ? List.of("a.zip ARCHIVE") : List.of("a.zip!/x/" + name + " IMPORTED", "a.zip ARCHIVE"), lines);
    }

    @Test
    void namesInAnOldCodeAreTakenByteByByte() throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ZipOutputStream out = new ZipOutputStream(bytes, StandardCharsets.ISO_8859_1)) {
            out.putNextEntry(new ZipEntry("Stra\u00dfe.gpx"));
            out.write(Fake.content("ride"));
        }
        assertEquals(
                "a.zip!/Stra\u00dfe.gpx IMPORTED",
                lines("a.zip", bytes.toByteArray()).get(0));
    }

    @Test
    void ofTwoEntriesWithOneNameTheFirstCounts() throws IOException {
        assertEquals(
                List.of(
                        "a.zip!/x.gpx IMPORTED",
                        "a.zip!/x.gpx KNOWN a second entry of this name, the same",
                        "a.zip!/x.gpx (3) REFUSED a second entry of this name with other content",
                        "a.zip ARCHIVE"),
                lines(
                        "a.zip",
                        Fake.zip(
                                Fake.entry("x.gpx", "ride n=1"),
                                Fake.entry("x.gpx", "ride n=1"),
                                Fake.entry("x.gpx", "ride n=2"))));
        assertEquals(1, shelf.rides.size());
    }

    @Test
    void containersAreOpenedThreeDeep() throws IOException {
        byte[] deep = Fake.content("ride");
        for (int i = 0; i < 3; i++) {
            deep = Fake.gzip(deep);
        }
        assertEquals(List.of("a.gz IMPORTED"), lines("a.gz", deep));
        assertEquals(List.of("b.gz REFUSED packed more than 3 deep"), lines("b.gz", Fake.gzip(deep)));
        assertEquals(
                List.of("c.zip!/a.gz REFUSED packed more than 3 deep", "c.zip ARCHIVE"),
                lines("c.zip", Fake.zip(new Fake.Entry("a.gz", deep))));
    }

    @Test
    void largeContentsAreRefusedOnlyWhereTheyMayBeRides() throws IOException {
        byte[] ride = noise("<gpx > ", 3000);
        byte[] other = noise("photo", 3000);
        assertEquals(List.of("a.gpx NOT_RIDE holds no activity"), lines("a.gpx", ride));
        assertEquals(
                List.of("b.gpx REFUSED larger than 0 MB, as no ride file is"), lines("b.gpx", noise("<gpx > ", 4001)));
        assertEquals(List.of("c NOT_RIDE no FIT, GPX or TCX content"), lines("c", noise("photo", 90_000)));
        assertEquals(
                List.of(
                        "d.zip!/1 REFUSED larger than 0 MB, as no ride file is",
                        "d.zip!/2 NOT_RIDE no FIT, GPX or TCX content",
                        "d.zip!/3 IMPORTED",
                        "d.zip ARCHIVE"),
                lines(
                        "d.zip",
                        Fake.zip(new Fake.Entry("1", ride), new Fake.Entry("2", other), Fake.entry("3", "ride"))));
    }

    private static byte[] noise(String start, int size) {
        byte[] bytes = new byte[size];
        new Random(1).nextBytes(bytes);
        System.arraycopy(start.getBytes(StandardCharsets.US_ASCII), 0, bytes, 0, start.length());
        return bytes;
    }

    @Test
    void bombsGetOneLine() throws IOException {
        String reason = " REFUSED unpacks to more than 20 times its size; the rest was left";
        byte[] zeros = new byte[1 << 20];
        assertEquals(List.of("a.gz" + reason), lines("a.gz", Fake.gzip(zeros)));
        assertEquals(
                List.of("b.zip!/1.gpx IMPORTED", "b.zip" + reason),
                lines(
                        "b.zip",
                        Fake.zip(
                                Fake.entry("1.gpx", "ride"), new Fake.Entry("2", zeros), Fake.entry("3", "ride n=3"))));
        byte[] nested = Fake.zip(new Fake.Entry("in.zip", Fake.zip(new Fake.Entry("2", zeros))));
        assertEquals(List.of("c.zip" + reason), lines("c.zip", nested));
        Fake.Entry[] many = new Fake.Entry[31];
        for (int i = 0; i < many.length; i++) {
            many[i] = new Fake.Entry("e" + i, new byte[] {(byte) i});
        }
        List<String> lines = lines("d.zip", Fake.zip(many));
        assertEquals(31, lines.size());
        assertEquals("d.zip REFUSED holds more than 30 entries; the rest was left", lines.get(30));
    }

    @Test
    void manyHonestEntriesOfOneKindAreNoBomb() throws IOException {
        Fake.Entry[] some = new Fake.Entry[30];
        for (int i = 0; i < some.length; i++) {
            some[i] = new Fake.Entry("e" + i, noise("<gpx > n=" + i, 1500));
        }
        assertTrue(lines("a.zip", Fake.zip(some)).contains("a.zip ARCHIVE"));
    }

    @Test
    void whereverAnArchiveIsCutWhatCameBeforeStaysAndTheCutIsTold() throws IOException {
        byte[] whole = Fake.zip(Fake.entry("1.gpx", "ride n=1"), Fake.entry("2.gpx", "ride n=2"));
        int imported = 0;
        for (int length = 4; length < whole.length; length++) {
            List<Outcome> outcomes = outcomes("cut" + length + ".zip", Arrays.copyOf(whole, length));
            Outcome last = outcomes.get(outcomes.size() - 1);
            assertEquals(Outcome.Kind.REFUSED, last.kind(), "cut at " + length + ": " + last);
            imported += (int) outcomes.stream()
                    .filter(o -> o.kind() == Outcome.Kind.IMPORTED)
                    .count();
        }
        assertEquals(2, imported);
        assertEquals(2, shelf.rides.size());
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void damagedArchivesEndInOutcomesNotInExceptions(long seed) throws IOException {
        byte[] whole = Fake.zip(
                Fake.entry("1.gpx", "ride n=1"),
                new Fake.Entry("2.gz", Fake.gzip(Fake.content("ride n=2"))),
                new Fake.Entry("3.zip", Fake.zip(Fake.entry("4.gpx", "ride n=4"))));
        Random random = new Random(seed);
        for (int i = 0; i < 150; i++) {
            byte[] damaged = whole.clone();
            for (int hits = 1 + random.nextInt(4); hits > 0; hits--) {
                damaged[4 + random.nextInt(damaged.length - 4)] = (byte) random.nextInt(256);
            }
            List<Outcome> outcomes = outcomes("d" + i + ".zip", damaged);
            Outcome last = outcomes.get(outcomes.size() - 1);
            assertTrue(
                    last.kind() == Outcome.Kind.ARCHIVE || last.kind() == Outcome.Kind.REFUSED,
                    "seed " + seed + ": " + last);
        }
    }

    @Test
    void aBrokenGzipFileDoesNotBreakItsArchive() throws IOException {
        byte[] cut = Fake.gzip(Fake.content("ride n=1"));
        byte[] wrong = cut.clone();
        wrong[wrong.length - 6] ^= 1;
        assertEquals(
                List.of(
                        "a.zip!/1.gpx.gz REFUSED the gzip stream ends too early",
                        "a.zip!/2.gpx.gz REFUSED the gzip stream is broken (its checksum is wrong)",
                        "a.zip!/3.gpx IMPORTED",
                        "a.zip ARCHIVE"),
                lines(
                        "a.zip",
                        Fake.zip(
                                new Fake.Entry("1.gpx.gz", Arrays.copyOf(cut, cut.length - 4)),
                                new Fake.Entry("2.gpx.gz", wrong),
                                Fake.entry("3.gpx", "ride n=2"))));
    }

    /** Once the second ride was lost without a word where the first member ended with what had been read. */
    @Test
    void aGzipFileOfSeveralMembersIsReadWhole() throws IOException {
        byte[] ride = Fake.content("ride ride");
        byte[] members = new byte[0];
        for (byte b : ride) {
            members = joined(members, Fake.gzip(new byte[] {b}));
        }
        assertEquals(List.of("a.gpx.gz IMPORTED"), lines("a.gpx.gz", members));
        assertEquals(2, shelf.rides.size());
        assertEquals(
                List.of("b.zip!/a.gpx.gz KNOWN same content as a file read before", "b.zip ARCHIVE"),
                lines("b.zip", Fake.zip(new Fake.Entry("a.gpx.gz", members))));
        assertEquals(
                List.of("c.gz REFUSED the gzip stream is broken (what stands behind its end is no gzip)"),
                lines("c.gz", joined(members, new byte[] {1})));
        assertEquals(
                List.of("d.gz KNOWN same content as a file read before"),
                lines("d.gz", joined(members, new byte[1000])));
    }

    private static byte[] joined(byte[] a, byte[] b) {
        byte[] both = Arrays.copyOf(a, a.length + b.length);
        System.arraycopy(b, 0, both, a.length, b.length);
        return both;
    }

    @Test
    void aWrongChecksumEndsTheArchive() throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        byte[] content = Fake.content("ride n=1");
        try (ZipOutputStream out = new ZipOutputStream(bytes)) {
            ZipEntry stored = new ZipEntry("1.gpx");
            stored.setMethod(ZipEntry.STORED);
            stored.setSize(content.length);
            CRC32 crc = new CRC32();
            crc.update(content);
            stored.setCrc(crc.getValue());
            out.putNextEntry(stored);
            out.write(content);
            out.putNextEntry(new ZipEntry("2.gpx"));
            out.write(Fake.content("ride n=2"));
        }
        byte[] zip = bytes.toByteArray();
        assertEquals(3, lines("good.zip", zip).size());
        zip[30 + "1.gpx".length()] ^= 1;
        List<Outcome> outcomes = outcomes("bad.zip", zip);
        assertEquals(1, outcomes.size());
        assertTrue(outcomes.get(0).reason().startsWith("the archive is broken in entry 1 ("), outcomes.toString());
    }

    @Test
    void anEncryptedEntryEndsTheArchive() throws IOException {
        byte[] zip = Fake.zip(Fake.entry("1.gpx", "ride n=1"), Fake.entry("2.gpx", "ride n=2"));
        // Bit 0 of the second local header's flags.
        String text = new String(zip, StandardCharsets.ISO_8859_1);
        zip[text.indexOf("PK\u0003\u0004", 4) + 6] |= 1;
        List<String> lines = lines("a.zip", zip);
        assertEquals("a.zip!/1.gpx IMPORTED", lines.get(0));
        assertTrue(
                lines.get(1).startsWith("a.zip REFUSED the archive is encrypted or broken after 1 entries ("),
                lines.toString());
        assertEquals(2, lines.size());
    }

    @Test
    void anArchiveThatHidesEntriesFromItsDirectoryIsTold() throws IOException {
        byte[] zip = Fake.zip(Fake.entry("1.gpx", "ride n=1"), Fake.entry("2.gpx", "ride n=2"));
        zip[zip.length - 22 + 10] = 7;
        assertEquals(
                "a.zip REFUSED the archive lists 7 entries, 2 could be read",
                lines("a.zip", zip).get(2));
    }

    /** Once only the first of them was read, without a word where both held as many. */
    @Test
    void whatStandsBehindAnArchiveIsTold() throws IOException {
        byte[] one = Fake.zip(Fake.entry("1.gpx", "ride n=1"));
        byte[] two = Fake.zip(Fake.entry("2.gpx", "ride n=2"));
        String more = "a.zip REFUSED more than one archive with 1 entries stands in the file; the rest was left";
        assertEquals(List.of("a.zip!/1.gpx IMPORTED", more), lines("a.zip", joined(one, two)));
        assertEquals(more, lines("a.zip", joined(one, Fake.content("ride n=3"))).get(1));
        assertEquals(more, lines("a.zip", joined(one, new byte[] {7})).get(1));
        // The same as a tool leaves it that makes the second one's offsets count from the file's first byte.
        byte[] moved = two.clone();
        int record = moved.length - 22;
        int directory = little(moved, record + 16);
        put(moved, directory + 42, one.length);
        put(moved, record + 16, directory + one.length);
        assertEquals(more, lines("a.zip", joined(one, moved)).get(1));
        assertEquals("a.zip ARCHIVE", lines("a.zip", joined(one, new byte[300])).get(1));
        assertEquals(
                "b.zip REFUSED more than one archive with 0 entries stands in the file; the rest was left",
                lines("b.zip", joined(Fake.zip(), joined(two, Fake.zip()))).get(0));
    }

    private static int little(byte[] bytes, int at) {
        return (bytes[at] & 0xff) | (bytes[at + 1] & 0xff) << 8 | (bytes[at + 2] & 0xff) << 16 | bytes[at + 3] << 24;
    }

    private static void put(byte[] bytes, int at, int number) {
        for (int i = 0; i < 4; i++) {
            bytes[at + i] = (byte) (number >> (8 * i));
        }
    }

    /** Stored or deflated, sizes before or behind, with a comment, with none: where the entries end is known. */
    @ParameterizedTest
    @ValueSource(ints = {5, 6, 20, 600, 1500, 1990})
    void soundArchivesOfAllKindsAreWhole(int size) throws IOException {
        for (int kind = 0; kind < 8; kind++) {
            ByteArrayOutputStream bytes = new ByteArrayOutputStream();
            try (ZipOutputStream out = new ZipOutputStream(bytes)) {
                out.setComment((kind & 1) == 0 ? "" : "PK\u0005\u0006 is what the end is marked with".repeat(20));
                for (int n = 0; n < 1 + kind; n++) {
                    byte[] content = noise("photo", size + n);
                    ZipEntry entry = new ZipEntry("e" + n);
                    if ((kind & 2) != 0) {
                        entry.setMethod(ZipEntry.STORED);
                        entry.setSize(content.length);
                        CRC32 crc = new CRC32();
                        crc.update(content);
                        entry.setCrc(crc.getValue());
                    }
                    entry.setExtra((kind & 4) == 0 ? new byte[0] : new byte[] {9, 9, 2, 0, 1, 1});
                    out.putNextEntry(entry);
                    out.write(content);
                }
            }
            List<String> lines = lines("a.zip", bytes.toByteArray());
            assertEquals("a.zip ARCHIVE", lines.get(lines.size() - 1), "kind " + kind);
        }
    }

    /** Once each was kept whole, 64 KB of it, and what remembered them ran out of memory. */
    @Test
    void namesThatNoToolWouldUnpackAreRefusedInShort() throws IOException {
        String longest = "n".repeat(996) + ".gpx";
        String longer = "n".repeat(65_000);
        List<String> lines = lines(
                "a.zip",
                Fake.zip(
                        Fake.entry(longest, "ride n=1"),
                        Fake.entry(longer + "1.gpx", "ride n=2"),
                        Fake.entry(longer + "2.gpx", "ride n=3")));
        String reason = " REFUSED the entry's name is longer than 1000 letters";
        assertEquals(
                List.of(
                        "a.zip!/" + longest + " IMPORTED",
                        "a.zip!/" + "n".repeat(60) + "… (entry 2)" + reason,
                        "a.zip!/" + "n".repeat(60) + "… (entry 3)" + reason,
                        "a.zip ARCHIVE"),
                lines);
    }
}
