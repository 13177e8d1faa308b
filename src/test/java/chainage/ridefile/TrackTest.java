package chainage.ridefile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.ride.RideFormat;
import chainage.ride.Sample;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Courses, planned or ridden: points with or without times. */
class TrackTest {
    private static Track track(String xml) throws RideFileException {
        return RideFiles.track(xml.getBytes(StandardCharsets.UTF_8));
    }

    @Test
    void aPlannedGpxRoute() throws RideFileException {
        Track t = track("<gpx><wpt lat='9' lon='9'/><rte><rtept lat='1' lon='2'><ele>30</ele></rtept>"
                + "<rtept lat='1.1' lon='2'/></rte></gpx>");
        assertEquals(RideFormat.GPX, t.format());
        assertEquals(2, t.points().size());
        assertEquals(30, t.points().get(0).altitudeMetres());
        assertEquals(1.1, t.points().get(1).latitude());
        assertTrue(Double.isNaN(t.points().get(1).altitudeMetres()));
    }

    @Test
    void aTrackComesBeforeARouteAndItsSegmentsAreNotJoined() throws RideFileException {
        Track t = track("<gpx><rte><rtept lat='1' lon='2'/></rte><trk><trkseg><trkpt lat='3' lon='4'/>"
                + "<trkpt lat='3.1' lon='4'/></trkseg><trkseg><trkpt lat='5' lon='6'/></trkseg></trk></gpx>");
        assertEquals(
                List.of(false, true, false),
                t.points().stream().map(Sample::joined).toList());
    }

    @Test
    void aTcxCourse() throws RideFileException {
        Track t = track("<TrainingCenterDatabase><Courses><Course><Name>x</Name><Track><Trackpoint><Position>"
                + "<LatitudeDegrees>1</LatitudeDegrees><LongitudeDegrees>2</LongitudeDegrees></Position>"
                + "<AltitudeMeters>7</AltitudeMeters><DistanceMeters>120</DistanceMeters></Trackpoint></Track>"
                + "</Course></Courses></TrainingCenterDatabase>");
        assertEquals(RideFormat.TCX, t.format());
        Sample s = t.points().get(0);
        assertEquals(
                List.of(1.0, 2.0, 7.0, 120.0),
                List.of(s.latitude(), s.longitude(), s.altitudeMetres(), s.odometerMetres()));
    }

    @Test
    void aRiddenFitFileAndHalfOfIt() throws IOException, RideFileException {
        byte[] whole = Files.readAllBytes(Path.of("fixtures/season/rides/watch/2026-05-30-0749.fit"));
        Track t = RideFiles.track(whole);
        assertEquals(RideFormat.FIT, t.format());
        assertTrue(t.points().size() > 500, t.points().size() + " points");
        assertThrows(RideFileException.class, () -> RideFiles.track(Arrays.copyOf(whole, whole.length / 2)));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "no course", "<kml/>", "<gpx><trk><trkseg><trkpt lat='1'", "<!DOCTYPE x><gpx/>"})
    void whatIsNoCourseIsRefused(String content) {
        assertThrows(RideFileException.class, () -> track(content));
    }

    /** Half a course would be taken for the whole. */
    @Test
    void aSecondDocumentBehindTheFirstIsRefused() {
        String one = "<gpx><rte><rtept lat='1' lon='2'/><rtept lat='1.1' lon='2'/></rte></gpx>";
        RideFileException e = assertThrows(RideFileException.class, () -> track(one + "\n" + one));
        assertEquals("more stands behind the end of the XML, at line 2", e.what());
    }
}
