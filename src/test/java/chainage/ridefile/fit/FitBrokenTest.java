package chainage.ridefile.fit;

import static chainage.ridefile.fit.FitFixture.LATEST;
import static chainage.ridefile.fit.FitFixture.START;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.ride.Ride;
import chainage.ridefile.Decoded;
import chainage.ridefile.RideFileException;
import chainage.ridefile.RideFiles;
import com.garmin.fit.Sport;
import com.garmin.fit.SubSport;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Torn, cut and bent FIT files: what was there is kept and marked, the rest is refused in one line. */
class FitBrokenTest {
    private static Decoded decode(byte[] content) throws RideFileException {
        return RideFiles.decode(content, LATEST);
    }

    @Test
    void cutInTheMiddleKeepsTheRecordsBefore() throws RideFileException {
        byte[] whole = FitFixture.tenMinutes();
        Ride ride = decode(Arrays.copyOf(whole, whole.length / 2)).activities().get(0);
        int kept = ride.effort().samples();
        assertTrue(kept > 250 && kept < 350, "" + kept);
        assertEquals(8.0 * (kept - 1), ride.distance().metres(), 1e-3);
        assertEquals(
                "the FIT data ends too early, at byte " + whole.length / 2 + ": kept " + kept + " records",
                ride.salvaged());
    }

    @Test
    void wrongChecksumKeepsAllAndSaysSo() throws RideFileException {
        byte[] content = FitFixture.tenMinutes();
        content[content.length - 1] ^= 1;
        Ride ride = decode(content).activities().get(0);
        assertEquals(4800, ride.distance().metres());
        assertEquals(
                "the FIT data fails its checksum (bytes 0 to " + content.length + "): kept 600 records",
                ride.salvaged());
    }

    @Test
    void sizeOfZeroAsInAFileThatWasNeverClosed() throws RideFileException {
        byte[] content = FitFixture.tenMinutes();
        Arrays.fill(content, 4, 8, (byte) 0);
        Ride ride = decode(content).activities().get(0);
        assertEquals(600, ride.effort().samples());
        assertNotNull(ride.salvaged());
    }

    @Test
    void goodPartFollowedByABrokenOne() throws RideFileException {
        byte[] good = FitFixture.tenMinutes();
        byte[] second = FitFixture.activity()
                .records(START.plusSeconds(9000), 100, 0)
                .session(START.plusSeconds(9000), 100, 800, Sport.CYCLING, SubSport.ROAD)
                .bytes();
        byte[] cut = FitReaderTest.join(good, Arrays.copyOf(second, 60));
        Decoded decoded = decode(cut);
        assertEquals(1, decoded.activities().size());
        assertEquals(4800, decoded.activities().get(0).distance().metres());
        assertTrue(decoded.passed().get(0).refused());

        // A wrong size in the first part must not hide the second.
        byte[] both = FitReaderTest.join(good, second);
        both[5] ^= 0x7F;
        Decoded resynchronised = decode(both);
        assertEquals(2, resynchronised.activities().size());
        assertNotNull(resynchronised.activities().get(0).salvaged());
        assertEquals(800, resynchronised.activities().get(1).distance().metres());
    }

    @Test
    void aSizeTooSmallLosesNothingEither() throws RideFileException {
        byte[] good = FitFixture.tenMinutes();
        byte[] both = FitReaderTest.join(good, FitFixture.tenMinutes());
        both[5] = (byte) (both[5] / 2);
        Decoded decoded = decode(both);
        assertEquals(2, decoded.activities().size());
        assertEquals(600, decoded.activities().get(0).effort().samples());
        assertEquals(
                "the FIT header states a wrong size: kept 600 records",
                decoded.activities().get(0).salvaged());
        assertEquals(List.of(), decoded.passed());
    }

    @Test
    void headerAloneIsTorn() {
        byte[] header = Arrays.copyOf(FitFixture.tenMinutes(), 14);
        RideFileException e = assertThrows(RideFileException.class, () -> decode(header));
        assertTrue(e.torn());
        assertTrue(e.what().startsWith("the FIT data ends too early, at byte 14"), e.what());
    }

    @Test
    void rubbishBehindAFileIsLeftOut() throws RideFileException {
        byte[] rubbish = new byte[300];
        Arrays.fill(rubbish, (byte) 7);
        Decoded decoded = decode(FitReaderTest.join(FitFixture.tenMinutes(), rubbish));
        assertEquals(1, decoded.activities().size());
        assertEquals(
                "300 bytes between or behind the parts are no FIT data",
                decoded.passed().get(0).what());
        assertTrue(decoded.passed().get(0).refused(), "it may be another ride");
    }

    @Test
    @Timeout(value = 120, unit = TimeUnit.SECONDS)
    void everyCutLengthIsReadOrRefused() {
        byte[] whole = FitFixture.activity()
                .records(START, 12, 0)
                .session(START, 12, 96, Sport.CYCLING, SubSport.ROAD)
                .bytes();
        for (int length = 0; length <= whole.length; length++) {
            readOrRefuse(Arrays.copyOf(whole, length), "cut at " + length);
        }
    }

    @Test
    @Timeout(value = 120, unit = TimeUnit.SECONDS)
    void everyBentByteIsReadOrRefused() {
        byte[] whole = FitFixture.activity()
                .records(START, 12, 0)
                .session(START, 12, 96, Sport.CYCLING, SubSport.ROAD)
                .bytes();
        for (int at = 0; at < whole.length; at++) {
            for (int mask : new int[] {1, 0x80, 0xFF}) {
                byte[] bent = whole.clone();
                bent[at] ^= (byte) mask;
                readOrRefuse(bent, "byte " + at + " xor " + mask);
            }
        }
    }

    private static void readOrRefuse(byte[] content, String what) {
        try {
            decode(content).activities().forEach(r -> {
                assertTrue(r.distance().metres() <= 2_000_000, what);
                assertTrue(!r.start().isAfter(LATEST), what);
            });
        } catch (RideFileException e) {
            assertTrue(!e.what().contains("\n") && !e.hint().isEmpty(), what + ": " + e.what());
        } catch (RuntimeException e) {
            throw new AssertionError(what, e);
        }
    }

    @Test
    void aMissingChecksumCostsNoMessage() throws RideFileException {
        byte[] whole = FitFixture.tenMinutes();
        for (int missing = 1; missing <= 2; missing++) {
            int length = whole.length - missing;
            Ride ride = decode(Arrays.copyOf(whole, length)).activities().get(0);
            assertEquals(4800, ride.distance().metres(), 1e-3, "the session's own total, in the last message");
            assertEquals("the FIT data lacks its checksum, at byte " + length + ": kept 600 records", ride.salvaged());
        }
    }

    @Test
    void aNewerProtocolIsReadAsFarAsItIsKnown() throws RideFileException {
        byte[] newer = newerProtocol(FitFixture.tenMinutes());
        Ride ride = decode(newer).activities().get(0);
        assertEquals(4800, ride.distance().metres());
        assertNull(ride.salvaged());
        assertEquals(
                List.of("FIT protocol 3.0 is newer than this program knows: read as far as it does"), ride.remarks());

        newer[newer.length - 1] ^= 1;
        assertEquals(
                "FIT protocol 3.0 is newer than this program knows; the FIT data fails its checksum (bytes 0 to "
                        + newer.length + "): kept 600 records",
                decode(newer).activities().get(0).salvaged());
    }

    private static byte[] newerProtocol(byte[] content) {
        content[1] = 0x30;
        content[12] = 0;
        content[13] = 0;
        int crc = Crc16.of(content, 0, content.length - 2);
        content[content.length - 2] = (byte) crc;
        content[content.length - 1] = (byte) (crc >>> 8);
        return content;
    }
}
