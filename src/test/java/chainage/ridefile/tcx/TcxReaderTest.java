package chainage.ridefile.tcx;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.ride.Ride;
import chainage.ride.Ride.Activity.Kind;
import chainage.ride.Ride.MetresFrom;
import chainage.ridefile.Decoded;
import chainage.ridefile.RideFileException;
import chainage.ridefile.RideFiles;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TcxReaderTest {
    private static final Instant LATEST = Instant.parse("2026-01-01T00:00:00Z");
    private static final Instant START = Instant.parse("2024-05-04T08:00:00Z");

    private static Decoded decode(String text) throws RideFileException {
        return RideFiles.decode(text.getBytes(StandardCharsets.UTF_8), LATEST);
    }

    private static Ride only(String text) throws RideFileException {
        Decoded decoded = decode(text);
        assertEquals(1, decoded.activities().size(), decoded.passed().toString());
        return decoded.activities().get(0);
    }

    private static String tcx(String... activities) {
        return "<TrainingCenterDatabase><Activities>\n" + String.join("\n", activities)
                + "</Activities></TrainingCenterDatabase>";
    }

    private static String activity(String sport, String... laps) {
        return "<Activity Sport=\"" + sport + "\"><Id>" + START + "</Id>" + String.join("", laps) + "</Activity>";
    }

    private static String lap(String start, String seconds, String metres, String track) {
        return "<Lap StartTime=\"" + start + "\"><TotalTimeSeconds>" + seconds + "</TotalTimeSeconds><DistanceMeters>"
                + metres + "</DistanceMeters><Track>" + track + "</Track></Lap>";
    }

    private static String points(Instant from, int count, double metres, String more) {
        StringBuilder points = new StringBuilder();
        for (int i = 0; i < count; i++) {
            points.append("<Trackpoint><Time>").append(from.plusSeconds(i)).append("</Time><DistanceMeters>");
            points.append(metres + 7 * i)
                    .append("</DistanceMeters>")
                    .append(more)
                    .append("</Trackpoint>\n");
        }
        return points.toString();
    }

    @Test
    void lapsAddUp() throws RideFileException {
        Ride ride = only(tcx(activity(
                "Biking",
                lap(START.toString(), "100", "700", points(START, 101, 0, "")),
                lap(START.plusSeconds(100).toString(), "50", "350.5", points(START.plusSeconds(101), 50, 707, "")),
                "<Notes>rain later</Notes><Creator><UnitId>3860</UnitId></Creator>")));
        assertEquals(START, ride.start());
        assertEquals(new Ride.Distance(1050.5, MetresFrom.DEVICE_TOTAL), ride.distance());
        assertEquals(150, ride.elapsedSeconds());
        assertEquals(150, ride.movingSeconds());
        assertEquals("rain later", ride.labels().notes());
        assertEquals(List.of(new Ride.Device("head_unit", "3860")), ride.devices());
        assertEquals(Kind.CYCLING, ride.activity().kind());
    }

    @ParameterizedTest(name = "[{0}]")
    @CsvSource({"Biking, CYCLING", "biking, CYCLING", "Running, OTHER", "Other, OTHER", "'', UNSTATED"})
    void sports(String sport, Kind kind) throws RideFileException {
        Ride ride = only(tcx(activity(sport, lap(START.toString(), "9", "63", points(START, 10, 0, "")))));
        assertEquals(kind, ride.activity().kind());
    }

    @Test
    void powerAndCadenceOfTheExtension() throws RideFileException {
        String more = "<Cadence>85</Cadence><Extensions><ns3:TPX><ns3:Speed>7</ns3:Speed><ns3:Watts>190</ns3:Watts>"
                + "</ns3:TPX></Extensions>";
        Ride ride = only(tcx(activity("Biking", lap(START.toString(), "60", "420", points(START, 61, 0, more)))));
        assertEquals(190, ride.effort().watts());
        assertEquals(85, ride.pedalling().revolutions(), 1e-9);
        assertEquals(60 * 190, ride.pedalling().rows().get(0).joules(), 1e-6);
    }

    @Test
    void withoutLapDistanceTheTrackpointsCount() throws RideFileException {
        Ride ride = only(tcx(activity("Biking", lap(START.toString(), "60", "", points(START, 61, 0, "")))));
        assertEquals(new Ride.Distance(420, MetresFrom.DEVICE_ODOMETER), ride.distance());
    }

    @ParameterizedTest(name = "[{0}]")
    @CsvSource(delimiter = '|', textBlock = """
            # case      | lap metres | metres | from
            negative      | -5000      | 420    | DEVICE_ODOMETER
            impossible    | 10000000   | 420    | DEVICE_ODOMETER
            words         | very far   | 420    | DEVICE_ODOMETER
            """)
    void badTotals(String title, String lapMetres, double metres, MetresFrom from) throws RideFileException {
        Ride ride = only(tcx(activity("Biking", lap(START.toString(), "60", lapMetres, points(START, 61, 0, "")))));
        assertEquals(new Ride.Distance(metres, from), ride.distance());
        assertTrue(!ride.remarks().isEmpty());
    }

    @Test
    void onlyAnImpossibleTotalIsRefused() throws RideFileException {
        for (String metres : List.of("-5000", "10000000")) {
            Decoded decoded = decode(tcx(activity("Biking", lap(START.toString(), "60", metres, ""))));
            assertEquals(List.of(), decoded.activities());
            assertTrue(decoded.passed().get(0).refused(), decoded.passed().toString());
        }
    }

    @Test
    void lapAndTrackpointsThatDisagreeAreRemarked() throws RideFileException {
        Instant other = Instant.parse("2021-09-29T15:17:30Z");
        Ride ride = only(tcx(activity("Biking", lap(START.toString(), "3000", "28000", points(other, 5, 0, "")))));
        assertEquals(START, ride.start());
        assertEquals(3000, ride.elapsedSeconds());
        assertEquals(28_000, ride.distance().metres());
        assertTrue(ride.remarks().get(0).contains("days apart"), ride.remarks().toString());
        assertTrue(
                ride.remarks().get(1).startsWith("device total 28000 m used"),
                ride.remarks().toString());
    }

    @Test
    void timesWithOffsetsAndWithoutZone() throws RideFileException {
        assertEquals(
                START,
                only(tcx(activity("Biking", lap("2024-05-04T10:00:00+02:00", "9", "63", points(START, 10, 0, "")))))
                        .start());
        assertEquals(
                START,
                only(tcx(activity("Biking", lap("2024-05-04T08:00:00", "9", "63", points(START, 10, 0, "")))))
                        .start());
    }

    @Test
    void multisportAndSeveralActivities() throws RideFileException {
        String run = activity("Running", lap(START.toString(), "9", "63", points(START, 10, 0, "")));
        String ride = activity(
                "Biking",
                lap(START.plusSeconds(3600).toString(), "9", "63", points(START.plusSeconds(3600), 10, 0, "")));
        Decoded decoded = decode(tcx("<MultiSportSession><Id/><FirstSport>" + run + "</FirstSport><NextSport>" + ride
                + "</NextSport></MultiSportSession>"));
        assertEquals(2, decoded.activities().size());
        assertEquals(Kind.CYCLING, decoded.activities().get(1).activity().kind());
        assertEquals(1, decoded.activities().get(1).key().session());
        assertEquals(2, decode(tcx(run, ride)).activities().size());
    }

    @Test
    void emptyLapAndNoTimes() throws RideFileException {
        Decoded decoded = decode("<TrainingCenterDatabase><Activities><Activity><Lap/></Activity></Activities>"
                + "</TrainingCenterDatabase>");
        assertEquals(List.of(), decoded.activities());
        assertEquals(false, decoded.passed().get(0).refused());
    }

    @Test
    void coursesAndWorkoutsAreNoRide() throws RideFileException {
        Decoded decoded = decode("<TrainingCenterDatabase><Courses><Course><Name>x</Name></Course></Courses>"
                + "</TrainingCenterDatabase>");
        assertEquals(
                "no activities (courses: 1, workouts: 0)",
                decoded.passed().get(0).what());
    }

    @Test
    void brokenXmlKeepsTheLapsBefore() throws RideFileException {
        String whole = tcx(activity("Biking", lap(START.toString(), "100", "700", points(START, 101, 0, ""))));
        Ride ride = only(whole.substring(0, whole.indexOf("</Trackpoint>", whole.length() / 2)));
        assertNotNull(ride.salvaged());
        assertEquals(700, ride.distance().metres());
    }

    @ParameterizedTest
    @CsvSource(textBlock = """
            Biking, CYCLING, false
            Cycling, CYCLING, false
            Bike, CYCLING, false
            Mountain Biking, CYCLING, false
            TurboBiking, CYCLING, true
            E-Biking, CYCLING, false
            Road_Biking, CYCLING, false
            Running, OTHER, false
            Other, OTHER, false
            MultiSport, UNSTATED, false
            Saturday, UNSTATED, false
            '', UNSTATED, false
            """)
    void sports(String sport, Kind kind, boolean indoor) throws RideFileException {
        Ride ride = only(tcx(activity(sport, lap(START.toString(), "600", "4800", points(START, 10, 0, "")))));
        assertEquals(kind, ride.activity().kind());
        assertEquals(indoor, ride.activity().indoor());
    }

    @Test
    void aLapWithoutADistanceLosesNoMetres() throws RideFileException {
        String first = lap(START.toString(), "100", "700", points(START, 100, 0, ""));
        String second = lap(START.plusSeconds(100).toString(), "300", "X", points(START.plusSeconds(100), 300, 700, ""))
                .replace("<DistanceMeters>X</DistanceMeters>", "");
        Ride ride = only(tcx(activity("Biking", first, second)));
        // 400 trackpoints, 7 m apart.
        assertEquals(new Ride.Distance(399 * 7, MetresFrom.DEVICE_ODOMETER), ride.distance());
        assertEquals(java.util.List.of("laps without a distance: 1; the trackpoints' count is used"), ride.remarks());
    }

    @Test
    void anEmptyLapWithoutADistanceChangesNothing() throws RideFileException {
        String first = lap(START.toString(), "100", "700", points(START, 100, 0, ""));
        String empty = "<Lap StartTime=\"" + START.plusSeconds(100) + "\"/>";
        Ride ride = only(tcx(activity("Biking", first, empty)));
        assertEquals(new Ride.Distance(700, MetresFrom.DEVICE_TOTAL), ride.distance());
    }

    @Test
    void aTrackpointsTimeIsNotOneWithinItsExtensions() throws RideFileException {
        String more =
                "<Extensions><x:Fix><x:Time>12</x:Time><x:DistanceMeters>9</x:DistanceMeters></x:Fix></Extensions>";
        Ride ride = only(tcx(activity("Biking", lap(START.toString(), "99", "693", points(START, 100, 0, more)))));
        assertEquals(99, ride.elapsedSeconds());
        assertEquals(java.util.List.of(), ride.remarks());
    }
}
