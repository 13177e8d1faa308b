package chainage.ridefile.gpx;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.ride.Ride;
import chainage.ride.Ride.Activity.Kind;
import chainage.ride.Ride.MetresFrom;
import chainage.ridefile.Decoded;
import chainage.ridefile.RideFileException;
import chainage.ridefile.RideFiles;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class GpxReaderTest {
    private static final Instant LATEST = Instant.parse("2026-01-01T00:00:00Z");

    private static Decoded decode(String text) throws RideFileException {
        return decode(text, StandardCharsets.UTF_8);
    }

    private static Decoded decode(String text, Charset charset) throws RideFileException {
        return RideFiles.decode(text.getBytes(charset), LATEST);
    }

    private static Ride only(String text) throws RideFileException {
        Decoded decoded = decode(text);
        assertEquals(1, decoded.activities().size(), decoded.passed().toString());
        return decoded.activities().get(0);
    }

    /** Points a second apart, 0.0001 degrees of longitude on the equator: 11.13 m (geodesics.csv, equator-1deg-lon). */
    private static String points(String from, int count, String inside) {
        StringBuilder points = new StringBuilder();
        Instant at = Instant.parse(from);
        for (int i = 0; i < count; i++) {
            points.append("<trkpt lat=\"0\" lon=\"").append(10 + i * 0.0001).append("\"><time>");
            points.append(at.plusSeconds(i)).append("</time>").append(inside).append("</trkpt>\n");
        }
        return points.toString();
    }

    private static String track(String type, String... segments) {
        String joined = String.join("</trkseg><trkseg>", segments);
        return "<trk><name>Over the weir</name>" + (type.isEmpty() ? "" : "<type>" + type + "</type>") + "<trkseg>"
                + joined + "</trkseg></trk>";
    }

    private static String gpx(String... tracks) {
        return "<gpx version=\"1.1\" xmlns=\"http://www.topografix.com/GPX/1/1\">\n" + String.join("\n", tracks)
                + "</gpx>\n";
    }

    private static final String DAY = "2024-05-04T08:00:00Z";

    @Test
    void plainTrack() throws RideFileException {
        Ride ride = only(gpx(
                "<metadata><keywords>loop, dry</keywords></metadata>",
                track("Cycling", points(DAY, 101, "<ele>12</ele>"))));
        assertEquals(Instant.parse(DAY), ride.start());
        assertEquals(100, ride.elapsedSeconds());
        assertEquals(100, ride.movingSeconds());
        assertEquals(MetresFrom.POSITIONS, ride.distance().from());
        assertEquals(1113.194908, ride.distance().metres(), 0.001);
        assertEquals(new Ride.Labels("Over the weir", "", "loop, dry"), ride.labels());
        assertEquals(new Ride.Activity("cycling", "", Kind.CYCLING, false), ride.activity());
        assertNull(ride.salvaged());
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
            Cycling            | CYCLING  | false
            cycling            | CYCLING  | false
            mountain_biking    | CYCLING  | false
            IndoorTrackBike    | CYCLING  | true
            TrackBike3         | CYCLING  | false
            recumbenttandem    | CYCLING  | false
            Indoor Cycling     | CYCLING  | true
            E-BikeTour         | CYCLING  | false
            spin               | CYCLING  | true
            Vélo de route      | CYCLING  | false
            Fahrradtour        | CYCLING  | false
            running            | OTHER    | false
            Motorcycling       | OTHER    | false
            motorcycle ride    | OTHER    | false
            horse riding       | OTHER    | false
            Randonnée          | OTHER    | false
            Bike - Train       | CYCLING  | false
            Bike and Hike      | CYCLING  | false
            Fahrradfahren      | CYCLING  | false
            Velofahren         | CYCLING  | false
            Rennrad fahren     | CYCLING  | false
            bikepacking        | CYCLING  | false
            Spin class         | CYCLING  | true
            Cyclotourisme      | CYCLING  | false
            cyclotourism       | CYCLING  | false
            crosscountrycycling| CYCLING  | false
            Gravel             | CYCLING  | false
            virtual ride       | CYCLING  | true
            E-Bike             | CYCLING  | false
            mountainbike       | CYCLING  | false
            Pyöräily           | CYCLING  | false
            Cykeltur           | CYCLING  | false
            Jazda na rowerze   | CYCLING  | false
            Rower              | CYCLING  | false
            サイクリング        | CYCLING  | false
            Велосипед          | CYCLING  | false
            motor cycle        | OTHER    | false
            Moto               | OTHER    | false
            Motorradfahren     | OTHER    | false
            Car                | OTHER    | false
            driving            | OTHER    | false
            bus ride           | OTHER    | false
            train ride         | OTHER    | false
            boat ride          | OTHER    | false
            indoor rowing      | OTHER    | true
            Indoor Rower       | OTHER    | true
            cross_country_ski  | OTHER    | false
            1                  | UNSTATED | false
            9                  | UNSTATED | false
            Saturday           | UNSTATED | false
            """)
    void types(String type, Kind kind, boolean indoor) throws RideFileException {
        Ride ride = only(gpx(track(type, points(DAY, 10, ""))));
        assertEquals(kind, ride.activity().kind());
        assertEquals(indoor, ride.activity().indoor());
    }

    @Test
    void segmentsAreNotJoined() throws RideFileException {
        Ride ride = only(gpx(track("", points(DAY, 11, ""), points("2024-05-04T09:00:00Z", 11, ""))));
        assertEquals(2 * 111.3194908, ride.distance().metres(), 0.001);
        assertEquals(3610, ride.elapsedSeconds());
        assertEquals(20, ride.movingSeconds());
    }

    @Test
    void tracksAreCountedInFileOrderAndABadDateSpoilsOnlyItsOwn() throws RideFileException {
        String undated = "<trk><type>cycling</type><trkseg><trkpt lat=\"1\" lon=\"2\"/></trkseg></trk>";
        Decoded decoded = decode(gpx(
                track("", points("2024-05-04T08:00:00Z", 10, "")),
                undated,
                track("", points("2087-05-03T08:00:00Z", 10, "")),
                track("", points("2024-05-01T08:00:00Z", 10, ""))));
        assertEquals(2, decoded.activities().size());
        assertEquals(0, decoded.activities().get(0).key().session());
        assertEquals(3, decoded.activities().get(1).key().session());
        assertEquals(
                Instant.parse("2024-05-01T08:00:00Z"),
                decoded.activities().get(1).start());
        assertEquals(1, decoded.passed().get(0).session());
        assertEquals(false, decoded.passed().get(0).refused());
        assertEquals(2, decoded.passed().get(1).session());
        assertEquals(true, decoded.passed().get(1).refused());
    }

    @Test
    void firstPointOfAClockNotYetSet() throws RideFileException {
        Ride ride = only(gpx(track("", points("1901-12-13T20:45:52Z", 3, "") + points(DAY, 10, ""))));
        assertEquals(Instant.parse(DAY), ride.start());
        assertTrue(
                ride.remarks().get(0).startsWith("dated 1901-12-13"),
                ride.remarks().toString());
    }

    @Test
    void extensionsByTheirLocalNames() throws RideFileException {
        Ride ride = only(gpx(track(
                "",
                points(
                        DAY,
                        60,
                        "<extensions><power>210</power><x:TrackPointExtension><x:atemp>14</x:atemp><x:hr>150</x:hr>"
                                + "<x:cad>88</x:cad></x:TrackPointExtension></extensions>"))));
        assertEquals(210, ride.effort().watts());
        assertEquals(14, ride.effort().celsius());
        assertEquals(59 * 88 / 60.0, ride.pedalling().revolutions(), 1e-6);
    }

    @Test
    void wordsWhereNumbersBelong() throws RideFileException {
        Ride ride = only(gpx(track("", points(DAY, 20, "<ele>high</ele><cad>fast</cad>"))));
        assertEquals(19 * 11.13194908, ride.distance().metres(), 0.001);
        assertTrue(
                ride.remarks().contains("values that are no numbers, left out: 40"),
                ride.remarks().toString());
    }

    @Test
    void unreadableTimesAreRefusedButMissingOnesAreNot() throws RideFileException {
        String words = "<trkpt lat=\"1\" lon=\"2\"><time>on Sunday</time></trkpt>";
        Decoded decoded = decode(gpx(track("", words)));
        assertEquals(true, decoded.passed().get(0).refused());
        assertEquals("no readable times (no dates: 1)", decoded.passed().get(0).what());
    }

    @Test
    void gpx10WithoutNamespaceAfterAMarkAndSpace() throws RideFileException {
        String body = "<gpx version=\"1.0\"><name>File name</name><desc>wet lanes</desc><trk><trkseg>"
                + points(DAY, 5, "<speed>9.5</speed>") + "</trkseg></trk></gpx>";
        Ride ride = only("\uFEFF\n  <?xml version=\"1.0\"?>\n" + body);
        assertEquals(new Ride.Labels("File name", "wet lanes", ""), ride.labels());
        assertEquals(11.15, ride.effort().medianSpeed(), 1e-9, "by the positions");
    }

    @Test
    void aSpeedInKilometresAnHourDoesNotMakeACyclistACar() throws RideFileException {
        Ride ride = only(gpx(track("", points(DAY, 60, "<speed>39.9</speed>"))));
        assertEquals(11.15, ride.effort().medianSpeed(), 1e-9);
        assertEquals(59, ride.movingSeconds());
    }

    @Test
    void aPointsTimeAndHeightAreNotThoseWithinItsExtensions() throws RideFileException {
        String inside = "<ele>12</ele><speed>4</speed><extensions><x:fix><x:time>12</x:time><x:ele>900</x:ele>"
                + "</x:fix></extensions>";
        Ride ride = only(gpx(track("", points(DAY, 60, inside))));
        assertEquals(Instant.parse(DAY), ride.start());
        assertEquals(0, ride.effort().ascentMetres());
        assertEquals(java.util.List.of(), ride.remarks());
    }

    @Test
    void prefixesNeedNoDeclaration() throws RideFileException {
        String body = gpx(track("", points(DAY, 5, "<ext:depth>3</ext:depth>")));
        assertEquals(5, only(body.replace("trkpt", "g:trkpt")).effort().samples());
    }

    @ParameterizedTest
    @ValueSource(strings = {"UTF-16", "UTF-16LE", "UTF-16BE", "ISO-8859-1"})
    void encodings(String charset) throws RideFileException {
        String mark = charset.length() > 6 && charset.startsWith("UTF") ? "\uFEFF" : "";
        String text = mark + "<?xml version=\"1.0\" encoding=\"" + charset.replaceAll("[LB]E$", "") + "\"?>"
                + gpx(track("", points(DAY, 5, ""))).replace("weir", "wéir");
        Ride ride = decode(text, Charset.forName(charset)).activities().get(0);
        assertEquals("Over the wéir", ride.labels().title());
    }

    @Test
    void aLetterInAnotherEncodingCostsNoRide() throws RideFileException {
        String text = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>"
                + gpx(track("", points(DAY, 5, ""))).replace("weir", "w\u00e9ir");
        Ride ride = decode(text, StandardCharsets.ISO_8859_1).activities().get(0);
        assertEquals("Over the w\uFFFDir", ride.labels().title());
        assertNull(ride.salvaged());
    }

    @Test
    void anEncodingNobodyKnowsIsReadAsUtf8() throws RideFileException {
        String text = "<?xml version=\"1.0\" encoding=\"X-NONE-7\"?>" + gpx(track("", points(DAY, 5, "")));
        assertEquals(5, only(text).effort().samples());
    }

    @Test
    void routesAndWaypointsAreNoRide() throws RideFileException {
        Decoded decoded = decode(gpx("<wpt lat=\"1\" lon=\"2\"/><rte><rtept lat=\"1\" lon=\"2\"/></rte>"));
        assertEquals(
                "no tracks (routes: 1, waypoints: 1)", decoded.passed().get(0).what());
        assertEquals(false, decoded.passed().get(0).refused());
    }

    @Test
    void brokenXmlKeepsThePointsBefore() throws RideFileException {
        String whole = gpx(track("", points(DAY, 50, "")), track("", points("2024-05-05T08:00:00Z", 50, "")));
        String cut = whole.substring(0, whole.lastIndexOf("<trkpt") + 20);
        Decoded decoded = decode(cut);
        assertEquals(2, decoded.activities().size());
        assertNull(decoded.activities().get(0).salvaged());
        String salvaged = decoded.activities().get(1).salvaged();
        assertNotNull(salvaged);
        assertTrue(salvaged.matches("the XML ends too early at line 10\\d: kept 49 points of this track"), salvaged);
    }

    @Test
    void brokenBeforeAnythingIsRefusedWithItsLine() {
        String text = "<gpx>\n<trk>\n<trkseg></trk></gpx>\n";
        RideFileException e = assertThrows(RideFileException.class, () -> decode(text));
        assertEquals("the XML is broken at line 3, before any dated point", e.what());
        assertEquals(false, e.torn());
        assertTrue(assertThrows(RideFileException.class, () -> decode("<gpx><trk><trks"))
                .torn());
    }

    @Test
    void oneTimeOnAllPointsDatesTheMetres() throws RideFileException {
        Ride ride = only(gpx(track("cycling", points(DAY, 101, "").replaceAll("<time>[^<]*", "<time>2024-05-04"))));
        assertEquals(Instant.parse("2024-05-04T00:00:00Z"), ride.start());
        assertEquals(0, ride.elapsedSeconds());
        assertEquals(1113.194908, ride.distance().metres(), 0.001);
        assertEquals(java.util.List.of("all points carry one time: dated, but without a duration"), ride.remarks());
    }

    /** Once a second document was left without a word. XML 1.0, rules 1 and 27: what may follow the root. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "<gpx><trk/></gpx>",
                "\n<?xml version=\"1.0\"?>\n<gpx><trk/></gpx>",
                "<!-- a --><a/>",
                "x",
                "PK\u0003\u0004",
                "<gpx",
                "\0\0x"
            })
    void whatStandsBehindTheDocumentIsTold(String more) throws RideFileException {
        Decoded decoded = decode(gpx(track("cycling", points(DAY, 100, ""))) + more);
        assertEquals(1, decoded.activities().size());
        assertEquals(1, decoded.passed().size());
        Decoded.Passed passed = decoded.passed().get(0);
        assertTrue(passed.refused(), passed.toString());
        assertEquals(1, passed.session());
        assertTrue(passed.what().startsWith("more stands behind the end of the XML, at line "), passed.what());
    }

    @ParameterizedTest
    @ValueSource(strings = {"\r\n \t", "<!-- a -->\n", "<?a b?>", "\0", "\0\0\0\0\0\0\0\0\0", "\n\0\0"})
    void commentsSpaceAndPaddingBehindTheDocumentAreNothing(String more) throws RideFileException {
        String text = gpx(track("cycling", points(DAY, 100, ""))) + more;
        for (Charset charset : List.of(StandardCharsets.UTF_8, StandardCharsets.UTF_16LE, StandardCharsets.UTF_16BE)) {
            Decoded decoded = decode(text, charset);
            assertEquals(1, decoded.activities().size(), charset.name());
            assertEquals(List.of(), decoded.passed(), charset.name());
        }
    }
}
