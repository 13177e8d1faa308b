package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.garmin.fit.BufferEncoder;
import com.garmin.fit.DateTime;
import com.garmin.fit.Decode;
import com.garmin.fit.FileIdMesg;
import com.garmin.fit.Fit;
import com.garmin.fit.MesgNum;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The same recordings in files of which only the date of the export is another: {@code time_created} of a FIT file's
 * {@code file_id} (FIT profile), {@code metadata/time} of GPX 1.1, {@code Creator} of a TCX activity (TrainingCenterDatabase
 * v2).
 */
class ExportedAnewTest {
    private static final Path FIT = Path.of("fixtures/season/rides/computer/2026-03-15-1000.fit");

    @TempDir
    Path folder = Path.of("");

    @BeforeEach
    void export() throws IOException {
        export("rides", 1);
    }

    private void export(String to, int night) throws IOException {
        Path into = Files.createDirectories(folder.resolve(to));
        Files.write(into.resolve("a.fit"), fit(night));
        Files.writeString(into.resolve("b.gpx"), gpx(night));
        Files.writeString(into.resolve("c.tcx"), tcx(night));
    }

    private static byte[] fit(int night) throws IOException {
        BufferEncoder out = new BufferEncoder(Fit.ProtocolVersion.V2_0);
        Decode decode = new Decode();
        decode.addListener((com.garmin.fit.MesgListener) mesg -> {
            if (mesg.getNum() == MesgNum.FILE_ID) {
                FileIdMesg id = new FileIdMesg(mesg);
                id.setTimeCreated(new DateTime(1_200_000_000L + 86_400L * night));
                out.write(id);
            } else {
                out.write(mesg);
            }
        });
        assertTrue(decode.read(new ByteArrayInputStream(Files.readAllBytes(FIT))));
        return out.close();
    }

    private static String gpx(int night) {
        return "<gpx version=\"1.1\"><metadata><time>2026-05-0" + night + "T03:00:00Z</time></metadata>"
                + "<trk><type>cycling</type><trkseg>"
                + "<trkpt lat=\"10\" lon=\"20\"><time>2026-04-01T08:00:00.5Z</time></trkpt>"
                + "<trkpt lat=\"10\" lon=\"20.04\"><time>2026-04-01T08:10:00Z</time></trkpt>"
                + "</trkseg></trk></gpx>";
    }

    private static String tcx(int night) {
        return "<TrainingCenterDatabase><Activities><Activity Sport=\"Biking\"><Id>2026-04-02T08:00:00Z</Id>"
                + "<Lap StartTime=\"2026-04-02T08:00:00Z\"><TotalTimeSeconds>1200</TotalTimeSeconds>"
                + "<DistanceMeters>9000</DistanceMeters><Track>"
                + "<Trackpoint><Time>2026-04-02T08:00:00Z</Time><DistanceMeters>0</DistanceMeters></Trackpoint>"
                + "<Trackpoint><Time>2026-04-02T08:20:00Z</Time><DistanceMeters>9000</DistanceMeters></Trackpoint>"
                + "</Track></Lap></Activity></Activities>"
                + "<Author><Build><BuildMajor>" + night + "</BuildMajor></Build></Author></TrainingCenterDatabase>";
    }

    private Run run(String... command) {
        List<String> args = new ArrayList<>(
                List.of("--ledger", folder.resolve("ledger.sqlite").toString()));
        args.addAll(List.of(command));
        return Run.of(args.toArray(String[]::new));
    }

    private String ok(String... command) {
        Run r = run(command);
        assertEquals(0, r.code(), r.err());
        return r.out();
    }

    private String named(String name) {
        return folder.resolve(name).toString();
    }

    private static List<String> all(String regex, String text) {
        return Pattern.compile(regex)
                .matcher(text)
                .results()
                .map(m -> m.group(1))
                .toList();
    }

    private List<String> ids() {
        return all("\"id\" : \"(\\w+)\"", ok("rides", "--all", "--json"));
    }

    @Test
    void theyAreKnownEveryNightAndAtAnyPlace() throws IOException {
        ok("import", named("rides"));
        List<String> ids = ids();
        assertEquals(3, ids.size());
        for (int night = 2; night < 6; night++) {
            export("rides", night);
            export("nights/" + night, night);
            String rehearsed = ok("import", "--dry-run", "--json", named(""));
            assertTrue(rehearsed.contains("\"imported\" : 0"), rehearsed);
            String told = ok("import", "--json", named(""));
            assertTrue(told.contains("\"imported\" : 0") && told.contains("\"twins\" : 0"), told);
            assertTrue(told.contains("same recording as a file read before"), told);
            assertEquals(ids, all("\"ride_ids\" : \\[ \"(\\w+)\" ]", told).subList(0, 3));
            assertEquals(ids, ids());
        }
        assertTrue(ok("import", "--json", named("")).contains("\"known\" : 15"));
        assertEquals("", run("check").err());
    }

    @Test
    void ofOneImportTheFirstIsKept() throws IOException {
        export("again", 2);
        String told = ok("import", "--json", named("again"), named("rides"));
        assertTrue(told.contains("\"imported\" : 3") && told.contains("\"known\" : 3"), told);
        assertEquals(3, ids().size());
    }

    @Test
    void theNewPlaceSpeaksForTheBikeToo() throws IOException {
        ok("import", named("rides"));
        export("commute", 2);
        ok("import", named("commute"));
        ok("bike", "add", "Dunlin");
        ok("bike", "add", "Natterjack");
        ok("assign", "--path", "commute", "--bike", "Natterjack");
        String rides = ok("rides", "--json");
        assertEquals(List.of("Natterjack", "Natterjack", "Natterjack"), all("\"bike\" : \"(\\w+)\"", rides));
    }

    @Test
    void whatDiffersInTheRideIsAnother() throws IOException {
        ok("import", named("rides"));
        Path gpx = folder.resolve("rides/b.gpx");
        Files.writeString(gpx, gpx(1).replace("20.04", "20.0401"));
        Files.writeString(folder.resolve("rides/c.tcx"), tcx(1).replace("Biking", "Other"));
        String told = ok("import", "--json", named("rides"));
        assertFalse(told.contains("same recording"), told);
        assertEquals(5, ids().size());
    }
}
