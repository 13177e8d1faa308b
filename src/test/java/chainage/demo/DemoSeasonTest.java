package chainage.demo;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * Holds the committed demo season to its generator. {@code mvn -q test -Dtest=DemoSeasonTest -Dfixtures.update=true}
 * writes it anew; review what git shows.
 */
class DemoSeasonTest {
    private static final Path SEASON = Path.of("fixtures", "season");
    private static SortedMap<String, byte[]> made = new TreeMap<>();

    @BeforeAll
    static void makeTheSeason() throws IOException {
        made = DemoSeason.files();
        if (Boolean.getBoolean("fixtures.update")) {
            write();
        }
    }

    private static void write() throws IOException {
        for (String folder : List.of("rides", "weather", "others")) {
            Path made = SEASON.resolve(folder);
            if (Files.exists(made)) {
                try (Stream<Path> old = Files.walk(made)) {
                    for (Path path : old.sorted(Comparator.reverseOrder()).toList()) {
                        Files.delete(path);
                    }
                }
            }
        }
        for (Map.Entry<String, byte[]> file : made.entrySet()) {
            Path path = SEASON.resolve(file.getKey());
            Files.createDirectories(path.getParent());
            Files.write(path, file.getValue());
        }
        Files.writeString(SEASON.resolve("index.txt"), DemoSeason.index(made));
    }

    @Test
    void twoRunsGiveTheSameBytes() {
        SortedMap<String, byte[]> again = DemoSeason.files();
        assertEquals(made.keySet(), again.keySet());
        made.forEach((path, content) -> assertArrayEquals(content, again.get(path), path));
    }

    @Test
    void theCommittedSeasonIsWhatTheGeneratorMakes() throws IOException {
        SortedSet<String> expected = new TreeSet<>(made.keySet());
        expected.add("index.txt");
        expected.addAll(DemoSeason.WRITTEN_BY_HAND);
        assertEquals(expected, filesBelow(SEASON));
        assertEquals(DemoSeason.index(made), Files.readString(SEASON.resolve("index.txt")));
        for (Map.Entry<String, byte[]> file : made.entrySet()) {
            same(file.getKey(), file.getValue(), Files.readAllBytes(SEASON.resolve(file.getKey())));
        }
    }

    /**
     * Equal bytes, or for packed files equal entries: how a deflate stream is cut is the affair of the compression
     * library that the Java at hand brings, so another machine may pack the same content differently.
     */
    private static void same(String path, byte[] expected, byte[] actual) throws IOException {
        boolean packed = path.endsWith(".gz") || path.endsWith(".zip");
        if (!packed || java.util.Arrays.equals(expected, actual)) {
            assertArrayEquals(expected, actual, path);
            return;
        }
        SortedMap<String, byte[]> wanted = Packed.unpacked(path, expected);
        SortedMap<String, byte[]> found = Packed.unpacked(path, actual);
        assertEquals(wanted.keySet(), found.keySet(), path);
        wanted.forEach((entry, content) -> assertArrayEquals(content, found.get(entry), path + " " + entry));
    }

    @Test
    void theSeasonIsSmall() {
        long bytes = made.values().stream().mapToLong(b -> b.length).sum();
        assertTrue(bytes < 6_000_000, bytes + " bytes");
    }

    @Test
    void theSetUpNamesTheSensorsThatTheFilesCarry() throws IOException {
        String setup = Files.readString(SEASON.resolve("setup.txt"), StandardCharsets.UTF_8);
        for (String sensor : List.of(
                "bike_power:" + DemoSeason.POWER_METER,
                "shifting:" + DemoSeason.SHIFTERS,
                "bike_speed:" + DemoSeason.SPEED_SENSOR,
                "bike_cadence:" + DemoSeason.CADENCE_SENSOR,
                "bike_power:" + Indoors.PEDALS)) {
            assertTrue(setup.contains("assign --sensor " + sensor + " --bike "), sensor);
        }
    }

    private static SortedSet<String> filesBelow(Path folder) throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            SortedSet<String> paths = new TreeSet<>();
            all.filter(Files::isRegularFile)
                    .forEach(p -> paths.add(folder.relativize(p).toString().replace('\\', '/')));
            return paths;
        }
    }
}
