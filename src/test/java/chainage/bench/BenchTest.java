package chainage.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.logbook.Line;
import chainage.logbook.LogbookText;
import chainage.logbook.Refusal;
import chainage.ride.Ride;
import chainage.ridefile.RideFiles;
import com.garmin.fit.CRC;
import com.garmin.fit.Decode;
import com.garmin.fit.MesgNum;
import java.io.ByteArrayInputStream;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** What the benchmark measures with is itself right. */
class BenchTest {
    @Test
    void theCrcIsTheOneOfTheFitSdk() {
        byte[] bytes = new byte[5_000];
        new Random(1).nextBytes(bytes);
        int expected = 0;
        for (byte b : bytes) {
            expected = CRC.get16(expected, b);
        }
        assertEquals(expected & 0xffff, CrcOfFolder.crc(bytes, bytes.length));
    }

    @Test
    void aMadeRideIsWholeAndUnlikeTheNext() {
        byte[] ride = RideMaker.ride(3, 86_400, 7_200);
        assertTrue(new Decode().checkFileIntegrity(new ByteArrayInputStream(ride)));
        assertEquals(0, CrcOfFolder.crc(ride, ride.length));
        assertFalse(Arrays.equals(ride, RideMaker.ride(4, 86_400, 7_200)));
        int[] records = new int[1];
        new Decode()
                .read(new ByteArrayInputStream(ride), mesg -> records[0] += mesg.getNum() == MesgNum.RECORD ? 1 : 0);
        assertEquals(7_201, records[0]);
    }

    /** Seven numbers a point in GPX and the version, eight in TCX and the lap's seconds. */
    @Test
    void madeXmlRidesAreWhatBothReadersTakeThemFor() throws Exception {
        byte[] gpx = XmlRideMaker.gpx(3, 86_400, 100);
        byte[] tcx = XmlRideMaker.tcx(3, 86_400, 100);
        assertEquals(101 * 7 + 1, StaxOfFolder.numbers(gpx));
        assertEquals(101 * 8 + 1, StaxOfFolder.numbers(tcx));
        for (byte[] ride : List.of(gpx, tcx)) {
            Ride read = RideFiles.decode(ride, Instant.parse("2026-01-01T00:00:00Z"))
                    .activities()
                    .get(0);
            assertEquals(101, read.effort().samples());
            assertEquals(800, read.distance().metres(), 60);
        }
    }

    /** All its lines but the first state something, and those that tag a ride stand on days on which there is one. */
    @Test
    void aMadeLogbookHasAsManyLinesAsAreAskedFor() throws Refusal {
        LogbookText text = LogbookText.of(LogbookMaker.of(300, 50));
        assertEquals(List.of(), text.refused());
        assertEquals(300, text.lines().size());
        Set<LocalDate> days = new HashSet<>();
        for (int i = 0; i < 50; i++) {
            days.add(LocalDate.ofInstant(LedgerMaker.start(i, 50, LogbookMaker.YEARS), ZoneOffset.UTC));
        }
        List<LocalDate> tagged = text.lines().stream()
                .filter(l -> l.words().get(0).equals("tag"))
                .map(Line::day)
                .toList();
        assertTrue(tagged.size() > 30 && days.containsAll(tagged), tagged.toString());
    }

    /** Each program against the baseline of its own round. */
    @Test
    void aRowShowsTheOlderProgramBesideTheNew() {
        Ratio ratio = new Ratio("x", 2);
        ratio.add(List.of(2.0, 6.0), 2.0);
        ratio.add(List.of(3.0, 4.0), 1.0);
        assertEquals("| x | 2.00 | 1.00..3.00 | 3.50 | 3.00..4.00 | 2 | 2.500 s | 5.000 s | 1.500 s |", ratio.row());
        assertEquals(
                ratio.row().chars().filter(c -> c == '|').count(),
                Ratio.heading(true)
                        .lines()
                        .findFirst()
                        .orElse("")
                        .chars()
                        .filter(c -> c == '|')
                        .count());
        assertEquals(2.5, ratio.seconds());
    }

    @Test
    void theMedianIsTheMiddleOne() {
        assertEquals(2, Ratio.median(List.of(9.0, 1.0, 2.0)));
        assertEquals(3, Ratio.median(List.of(9.0, 1.0, 2.0, 4.0)));
    }
}
