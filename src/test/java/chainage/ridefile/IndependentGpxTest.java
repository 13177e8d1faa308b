package chainage.ridefile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import chainage.ride.Ride;
import io.jenetics.jpx.GPX;
import io.jenetics.jpx.Length;
import io.jenetics.jpx.Track;
import io.jenetics.jpx.TrackSegment;
import io.jenetics.jpx.WayPoint;
import io.jenetics.jpx.geom.Geoid;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Compares with io.jenetics:jpx, an independent GPX reader and writer with its own (Vincenty) geodesics. */
class IndependentGpxTest {
    private static final Instant LATEST = Instant.parse("2027-01-01T00:00:00Z");

    /** Documents as the other library writes them, with random tracks that keep moving. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {21, 22, 23})
    void readsWhatTheOtherWrites(long seed) throws IOException, RideFileException {
        Random random = new Random(seed);
        GPX.Builder gpx = GPX.builder();
        for (int t = 0; t < 3; t++) {
            Track.Builder track = Track.builder().name("track " + t).type("cycling");
            double lat = random.nextDouble(-70, 70);
            double lon = random.nextDouble(-179, 179);
            Instant at = Instant.parse("2024-05-04T08:00:00Z").plusSeconds(86_400L * t);
            for (int s = 0; s < 2; s++) {
                TrackSegment.Builder segment = TrackSegment.builder();
                for (int i = 0; i < 200; i++) {
                    segment.addPoint(WayPoint.builder()
                            .lat(lat)
                            .lon(lon)
                            .ele(100)
                            .time(at)
                            .build());
                    lat += 0.00005 + 0.00002 * random.nextDouble();
                    lon += 0.00004 * random.nextGaussian();
                    at = at.plusSeconds(1);
                }
                track.addSegment(segment.build());
                lat += 0.1;
            }
            gpx.addTrack(track.build());
        }
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        GPX.Writer.DEFAULT.write(gpx.build(), out);
        compare(out.toByteArray());
    }

    @TestFactory
    @EnabledIfSystemProperty(named = "corpus", matches = ".+")
    Stream<DynamicTest> corpus() throws IOException {
        try (Stream<Path> files =
                Files.list(Path.of(System.getProperty("corpus", ".")).resolve("gpx"))) {
            return files.sorted().toList().stream()
                    .map(f -> dynamicTest(f.getFileName().toString(), () -> {
                        byte[] content = Files.readAllBytes(f);
                        if (readable(content)) {
                            compare(content);
                        } else {
                            System.out.println("jpx does not read " + f.getFileName());
                        }
                    }));
        }
    }

    private static boolean readable(byte[] content) {
        try {
            GPX.Reader.of(GPX.Reader.Mode.LENIENT).read(new ByteArrayInputStream(content));
            return true;
        } catch (IOException | RuntimeException e) {
            return false;
        }
    }

    private static void compare(byte[] content) throws IOException, RideFileException {
        List<Track> theirs = GPX.Reader.of(GPX.Reader.Mode.LENIENT)
                .read(new ByteArrayInputStream(content))
                .getTracks();
        for (Ride ride : RideFiles.decode(content, LATEST).activities()) {
            Track track = theirs.get(ride.key().session());
            int points = track.segments().mapToInt(s -> s.getPoints().size()).sum();
            double metres = track.segments()
                    .mapToDouble(
                            s -> s.points().collect(Geoid.WGS84.toPathLength()).to(Length.Unit.METER))
                    .sum();
            assertEquals(points, ride.effort().samples(), "points");
            Instant first = track.segments()
                    .flatMap(TrackSegment::points)
                    .flatMap(p -> p.getTime().stream())
                    .findFirst()
                    .orElseThrow();
            assertEquals(first.getEpochSecond(), ride.start().getEpochSecond());
            double leftOut = ride.remarks().stream()
                    .filter(r -> r.startsWith("left out"))
                    .mapToDouble(r -> Double.parseDouble(r.replaceAll(".*?([0-9]+) m\\b.*", "$1")))
                    .sum();
            double found = ride.distance().metres() + leftOut;
            assertTrue(Math.abs(metres - found) <= 0.001 * metres + 1.5, metres + " m, found " + found);
        }
    }
}
