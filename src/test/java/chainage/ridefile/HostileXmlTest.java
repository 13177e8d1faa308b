package chainage.ridefile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Arrays;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Text that means harm, and text that was cut or bent anywhere: one line of refusal or a ride, nothing else. */
@Timeout(value = 120, unit = TimeUnit.SECONDS)
class HostileXmlTest {
    private static final Instant LATEST = Instant.parse("2026-01-01T00:00:00Z");

    private static final String GPX = """
            <?xml version="1.0"?>
            <gpx><trk><name>A</name><trkseg>
            <trkpt lat="45.0" lon="7.0"><time>2024-05-04T08:00:00Z</time></trkpt>
            <trkpt lat="45.001" lon="7.0"><time>2024-05-04T08:00:20Z</time></trkpt>
            </trkseg></trk></gpx>
            """;

    private static final String TCX = """
            <TrainingCenterDatabase><Activities><Activity Sport="Biking"><Lap StartTime="2024-05-04T08:00:00Z">
            <DistanceMeters>9000</DistanceMeters><Track><Trackpoint><Time>2024-05-04T08:00:00Z</Time>
            <DistanceMeters>0</DistanceMeters></Trackpoint></Track></Lap></Activity></Activities>
            </TrainingCenterDatabase>
            """;

    private static RideFileException refused(String text) {
        return assertThrows(
                RideFileException.class, () -> RideFiles.decode(text.getBytes(StandardCharsets.UTF_8), LATEST));
    }

    @Test
    void entityBomb() {
        StringBuilder bomb = new StringBuilder("<!DOCTYPE gpx [<!ENTITY a \"aaaaaaaaaa\">");
        for (char c = 'b'; c <= 'k'; c++) {
            String before = "&" + (char) (c - 1) + ";";
            bomb.append("<!ENTITY ")
                    .append(c)
                    .append(" \"")
                    .append(before.repeat(10))
                    .append("\">");
        }
        RideFileException e =
                refused(bomb + "]>" + GPX.substring(GPX.indexOf("<gpx")).replace(">A<", ">&k;<"));
        assertTrue(e.what().contains("DOCTYPE"), e.what());
    }

    @Test
    void externalEntityIsNotFetched(@TempDir Path folder) throws IOException {
        Path secret = Files.writeString(folder.resolve("secret.txt"), "the secret");
        RideFileException e = refused("<!DOCTYPE gpx [<!ENTITY s SYSTEM \"" + secret.toUri() + "\">]>"
                + GPX.substring(GPX.indexOf("<gpx")).replace(">A<", ">&s;<"));
        assertTrue(e.what().contains("DOCTYPE"), e.what());
    }

    @Test
    void undefinedEntity() {
        RideFileException e = refused("<gpx><trk><name>&nothing;</name></trk></gpx>");
        assertTrue(e.what().contains("line 1"), e.what());
    }

    @Test
    void nestedTooDeep() {
        RideFileException e = refused("<gpx>" + "<a>".repeat(100_000));
        assertEquals("elements nested deeper than 100 at line 1, before any dated point", e.what());
    }

    @ParameterizedTest(name = "[{0}]")
    @ValueSource(
            strings = {"<html><body>log in</body></html>", "<kml/>", "<a:b/>", "hello", "{}", "<", "\n \n", "<?xml"})
    void otherContent(String text) {
        RideFileException e = refused(text);
        assertTrue(!e.what().isEmpty() && !e.hint().isEmpty());
    }

    @Test
    void controlCharactersOfARootAreNotPrinted() {
        RideFileException e = refused("<x\u009b31m/>");
        assertTrue(e.what().chars().allMatch(c -> (c >= ' ' && c < 0x7F) || c == '…'), e.what());
    }

    @ParameterizedTest
    @ValueSource(strings = {GPX, TCX})
    void everyCutAndEveryBentByte(String text) {
        byte[] whole = text.getBytes(StandardCharsets.UTF_8);
        for (int i = 0; i <= whole.length; i++) {
            readOrRefuse(Arrays.copyOf(whole, i), "cut at " + i);
        }
        for (int i = 0; i < whole.length; i++) {
            for (int mask : new int[] {1, 4, 0x20, 0x80, 0xFF}) {
                byte[] bent = whole.clone();
                bent[i] ^= (byte) mask;
                readOrRefuse(bent, "byte " + i + " xor " + mask);
            }
        }
    }

    private static void readOrRefuse(byte[] content, String what) {
        try {
            RideFiles.decode(content, LATEST);
        } catch (RideFileException e) {
            assertTrue(e.what().indexOf('\n') < 0 && !e.hint().isEmpty(), what + ": " + e.what());
        } catch (RuntimeException e) {
            throw new AssertionError(what, e);
        }
    }
}
