package chainage.importer;

import static chainage.importer.Members.joined;
import static chainage.importer.Members.little;
import static chainage.importer.Members.member;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.Computing;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Random;
import java.util.zip.Deflater;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Against RFC 1952, whose members {@link Members} puts together. */
@Timeout(300)
class GunzipTest {
    private static final int HEADER = 10;
    private static final int TRAILER = 8;

    private static byte[] noise(int length, long seed) {
        byte[] bytes = new byte[length];
        new Random(seed).nextBytes(bytes);
        return bytes;
    }

    private static byte[] unpacked(byte[] gzip) throws IOException {
        return new Gunzip(new ByteArrayInputStream(gzip)).readAllBytes();
    }

    /** A stream that gives a few bytes at a time and never says that there are more. */
    private static InputStream slow(byte[] bytes, int most) {
        return new FilterInputStream(new ByteArrayInputStream(bytes)) {
            @Override
            public int read(byte[] into, int from, int length) throws IOException {
                return super.read(into, from, Math.min(length, most));
            }

            @Override
            public int available() {
                return 0;
            }
        };
    }

    /** A bound between members may lie anywhere in what is read at a time, here and by those who read for us. */
    @ParameterizedTest
    @ValueSource(ints = {512, 8192, 65_536, 131_072})
    void aMemberMayEndAnywhereAroundTheBoundOfARead(int bound) throws IOException {
        byte[] second = noise(300, 2);
        for (int end = bound - 60; end <= bound + 60; end++) {
            // Stored, a content takes 5 bytes more for each 65,535 of it or less.
            byte[] first = noise(end - HEADER - TRAILER - 5 * (1 + end / 65_536), end);
            byte[] stored = member(first, Deflater.NO_COMPRESSION, 0, new byte[0]);
            assertTrue(Math.abs(stored.length - end) <= 5, stored.length + " for " + end);
            byte[] gzip = joined(stored, member(second), member(first));
            byte[] content = joined(first, second, first);
            assertArrayEquals(content, unpacked(gzip), "first member of " + stored.length);
            assertArrayEquals(
                    content, new Gunzip(slow(gzip, bound)).readAllBytes(), "first member of " + stored.length);
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 1, 2, 3, 7, 17, 18, 19, 26, 27, 100, 511, 512, 513})
    void manyMembersOfEverySizeGiveAllTheirContent(int size) throws IOException {
        int members = 2000;
        byte[] content = noise(members * size, size);
        ByteArrayOutputStream gzip = new ByteArrayOutputStream();
        for (int i = 0; i < members; i++) {
            gzip.writeBytes(member(Arrays.copyOfRange(content, i * size, (i + 1) * size)));
        }
        assertArrayEquals(content, unpacked(gzip.toByteArray()));
        assertArrayEquals(content, new Gunzip(slow(gzip.toByteArray(), 1)).readAllBytes());
        assertArrayEquals(content, new Gunzip(slow(gzip.toByteArray(), 13)).readAllBytes());
    }

    /** Bits 1 to 4 of the flags, in all their combinations, in the first member and in the second. */
    @Test
    void headersMayBearFieldsNamesCommentsAndAChecksum() throws IOException {
        byte[] name = "Straße.gpx\0".getBytes(StandardCharsets.UTF_8);
        byte[] content = noise(1000, 1);
        for (int flags = 0; flags < 32; flags += 2) {
            byte[] fields = joined(
                    (flags & 4) == 0 ? new byte[0] : joined(little(300, 2), noise(300, 3)),
                    (flags & 8) == 0 ? new byte[0] : name,
                    (flags & 16) == 0 ? new byte[0] : "after a ride\0".getBytes(StandardCharsets.US_ASCII));
            byte[] member = member(content, 9, flags, fields);
            assertArrayEquals(joined(content, content, content), unpacked(joined(member, member(content), member)));
            if ((flags & 2) != 0) {
                byte[] wrong = member.clone();
                wrong[4] ^= 1;
                assertEquals(
                        "the gzip stream is broken (its header's checksum is wrong)",
                        assertThrows(Gunzip.Broken.class, () -> unpacked(joined(member, wrong)))
                                .getMessage());
            }
        }
    }

    /** Once a name was read with a call to the disk a letter. */
    @Test
    void aNameOfMegabytesIsPassedOver() throws Throwable {
        byte[] name = new byte[20 << 20];
        Arrays.fill(name, 0, name.length - 1, (byte) 'n');
        byte[] gzip = member(noise(10, 1), 9, 8, name);
        Computing.atMost(5, () -> assertEquals(10, unpacked(gzip).length));
    }

    @Test
    void zerosBehindTheLastMemberArePaddingAndNothingElseIs() throws IOException {
        byte[] content = noise(1000, 1);
        byte[] one = member(content);
        for (int zeros : new int[] {1, 2, 17, 18, 19, 512, 9000, 70_000}) {
            byte[] padded = joined(one, one, new byte[zeros]);
            assertArrayEquals(joined(content, content), unpacked(padded), zeros + " zeros");
            assertBroken("what stands behind its end is no gzip", joined(padded, new byte[] {7}));
            assertBroken("what stands behind its end is no gzip", joined(padded, one));
        }
        for (int length = 1; length < 40; length++) {
            byte[] garbage = new byte[length];
            Arrays.fill(garbage, (byte) 'g');
            assertBroken("what stands behind its end is no gzip", joined(one, garbage));
            garbage[0] = 0x1f;
            if (length > 1) {
                assertBroken("what stands behind its end is no gzip", joined(one, garbage));
            }
        }
    }

    private static void assertBroken(String how, byte[] gzip) {
        Gunzip.Broken e = assertThrows(Gunzip.Broken.class, () -> unpacked(gzip));
        assertEquals("the gzip stream is broken (" + how + ")", e.getMessage());
    }

    @Test
    void whereverItIsCutSaveBetweenMembersTheCutIsTold() throws IOException {
        byte[] content = noise(200, 1);
        byte[] first = member(content, 9, 8 + 4 + 2, joined(little(3, 2), new byte[3], new byte[] {'n', 0}));
        byte[] gzip = joined(first, member(content));
        for (int length = 0; length < gzip.length; length++) {
            byte[] cut = Arrays.copyOf(gzip, length);
            if (length == first.length) {
                assertArrayEquals(content, unpacked(cut));
            } else {
                Gunzip.Broken e = assertThrows(Gunzip.Broken.class, () -> unpacked(cut), "cut at " + length);
                assertTrue(e.torn(), "cut at " + length);
                assertEquals("the gzip stream ends too early", e.getMessage());
            }
        }
    }

    @ParameterizedTest
    @CsvSource({
        "0, no gzip",
        "1, no gzip",
        "2, of an unknown kind",
        "-8, its checksum is wrong",
        "-1, its length is wrong"
    })
    void aWrongByteIsTold(int at, String how) {
        byte[] member = member(noise(100, 1));
        member[Math.floorMod(at, member.length)] ^= 0x40;
        assertBroken(how, member);
        if (at != 0 && at != 1) {
            assertBroken(how, joined(member(noise(50, 2)), member));
        }
    }

    /** No byte can change without a word, but the time and the two marks of the packer, which nothing checks. */
    @Test
    void noBitOfWhatCountsChangesUnnoticed() throws IOException {
        byte[] content = "<gpx>about a ride</gpx>".repeat(5).getBytes(StandardCharsets.US_ASCII);
        byte[] gzip = joined(member(content), member(content));
        int second = gzip.length / 2;
        for (int i = 0; i < gzip.length; i++) {
            int inMember = i % second;
            for (int bit = 0; bit < 8; bit++) {
                byte[] changed = gzip.clone();
                changed[i] ^= (byte) (1 << bit);
                try {
                    assertArrayEquals(joined(content, content), unpacked(changed), "byte " + i + " bit " + bit);
                    // Bit 0 of the flags says "text" and means nothing; unused bits may end the data.
                    boolean told = inMember >= HEADER && inMember < second - TRAILER - 1;
                    assertTrue(!told, "byte " + i + " bit " + bit);
                } catch (Gunzip.Broken e) {
                    assertTrue(String.valueOf(e.getMessage()).startsWith("the gzip stream "), e.toString());
                }
            }
        }
    }
}
