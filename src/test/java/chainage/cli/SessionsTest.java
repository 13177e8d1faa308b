package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import chainage.intake.InventedSeason;
import chainage.store.BentLedger;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileTime;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/**
 * Sessions at the terminal, one file a topic under {@code src/test/resources/golden}: what is typed, what is answered,
 * what is said on the error stream (after {@code ! }), and the exit code where it is not 0.
 *
 * <p>Lines that start with {@code %} make files: {@code % gpx PATH START KM [TYPE]} a track of that length along the
 * equator, {@code % text PATH WORDS} any other, {@code % link PATH TO} and {@code % name PATH
 * OF} (a hard link) what they say; {@code % damage LEDGER TABLE STATEMENT} changes a row past its guards, as a bad disk does; {@code % file PATH} one of the lines that follow after {@code %| }, as they stand. {@code DIR} stands for the session's own folder. With
 * {@code -Dgolden.update=true} the answers are written anew, and the difference is to be reviewed.
 */
class SessionsTest {
    private static final Path GOLDEN = Path.of("src/test/resources/golden");
    private static final boolean UPDATE = Boolean.getBoolean("golden.update");
    private static final String ONLY = System.getProperty("golden.only", "");
    private static final int LENGTH = 30;
    /** One degree of longitude on the equator, metres: WGS84, the reference value of the geodesy table. */
    private static final double DEGREE = 111_319.490793;

    @TestFactory
    Stream<DynamicTest> sessions() throws IOException {
        try (Stream<Path> files = Files.list(GOLDEN)) {
            List<Path> sessions = files.filter(f -> f.toString().endsWith(".session"))
                    .filter(f -> String.valueOf(f.getFileName()).startsWith(ONLY))
                    .sorted()
                    .toList();
            return sessions.stream().map(f -> dynamicTest(String.valueOf(f.getFileName()), () -> check(f)));
        }
    }

    private static void check(Path file) throws IOException {
        String expected = Files.readString(file);
        String actual = played(expected);
        if (UPDATE) {
            Files.writeString(file, actual);
            // An answer whose lines look like a session's own would be read as such from now on.
            assertEquals(actual, played(actual));
        } else {
            assertEquals(expected, actual);
        }
    }

    private static String played(String session) throws IOException {
        Path dir = folder();
        try {
            return play(session, dir);
        } finally {
            try (Stream<Path> all = Files.walk(dir)) {
                for (Path p : all.sorted(Comparator.reverseOrder()).toList()) {
                    Files.delete(p);
                }
            }
        }
    }

    /** Lines are broken by the length of what stands in them, so the folder's path is as long on every machine. */
    private static Path folder() throws IOException {
        Path shared = Path.of("/tmp");
        Path made = Files.createTempDirectory(
                Files.isWritable(shared) ? shared : Path.of(System.getProperty("java.io.tmpdir", ".")), "session");
        String path = made.toString();
        return Files.move(
                made,
                Path.of(path.substring(0, Math.min(path.length(), LENGTH - 1))
                        + "x".repeat(Math.max(1, LENGTH - path.length()))));
    }

    private static String play(String session, Path dir) throws IOException {
        StringBuilder played = new StringBuilder();
        Path file = dir;
        for (String line : session.lines().toList()) {
            if (line.startsWith("#") || line.isBlank()) {
                // A blank line between commands is kept only when it stands before a note or a command.
                if (line.startsWith("#")) {
                    played.append(line).append('\n');
                }
            } else if (line.startsWith("% file ")) {
                played.append(line).append('\n');
                file = dir.resolve(line.substring(7));
                Files.createDirectories(Objects.requireNonNull(file.getParent()));
                Files.writeString(file, "");
            } else if (line.startsWith("%|")) {
                played.append(line).append('\n');
                Files.writeString(file, line.substring(Math.min(line.length(), 3)) + "\n", StandardOpenOption.APPEND);
            } else if (line.startsWith("% ")) {
                played.append(line).append('\n');
                make(words(line.substring(2), dir), dir);
            } else if (line.startsWith("$ chainage")) {
                played.append(line).append('\n').append(run(line.substring(10), dir));
            }
        }
        return played.toString();
    }

    private static String run(String command, Path dir) {
        List<String> args = words(command, dir);
        // Not by --ledger: a rider who is new names none, and what is named has to be there.
        Run run = Run.in(
                Map.of("CHAINAGE_LEDGER", dir.resolve("ledger.sqlite").toString()),
                Instant.parse("2026-06-01T12:00:00Z"),
                args.toArray(String[]::new));
        StringBuilder said = new StringBuilder();
        run.out().lines().forEach(l -> said.append(l.isEmpty() ? "." : l).append('\n'));
        run.err().lines().forEach(l -> said.append("! ").append(l).append('\n'));
        if (run.code() != 0) {
            said.append("[").append(run.code()).append("]\n");
        }
        return said.toString().replace(dir.toString(), "DIR");
    }

    private static List<String> words(String line, Path dir) {
        return InventedSeason.words(line).stream()
                .map(w -> w.replace("DIR", dir.toString()))
                .toList();
    }

    private static void make(List<String> words, Path dir) throws IOException {
        Path file = dir.resolve(words.get(1));
        Files.createDirectories(Objects.requireNonNull(file.getParent()));
        switch (words.get(0)) {
            case "damage" -> damage(file, words.get(2), words.get(3));
            case "gone" -> Files.delete(file);
            case "link" -> Files.createSymbolicLink(file, Path.of(words.get(2)));
            case "name" -> Files.createLink(file, dir.resolve(words.get(2)));
            case "powered" -> {
                Files.writeString(
                        file,
                        powered(
                                words.get(2),
                                OffsetDateTime.parse(words.get(3)),
                                Double.parseDouble(words.get(4)),
                                Integer.parseInt(words.get(5)),
                                words.size() > 6 ? Double.parseDouble(words.get(6)) : 0));
                Files.setLastModifiedTime(file, FileTime.from(Instant.parse("2026-01-01T00:00:00Z")));
            }
            default -> write(words, file);
        }
    }

    private static void damage(Path ledger, String table, String statement) throws IOException {
        try {
            BentLedger.damage(ledger, table, statement);
        } catch (SQLException e) {
            throw new IOException(e);
        }
    }

    private static void write(List<String> words, Path file) throws IOException {
        String content = words.get(0).equals("gpx")
                ? gpx(
                        OffsetDateTime.parse(words.get(2)),
                        Double.parseDouble(words.get(3)),
                        words.size() > 4 ? words.get(4) : "")
                : String.join(" ", words.subList(2, words.size())).replace("\\n", "\n");
        Files.write(file, content.getBytes(StandardCharsets.UTF_8));
        // Old enough not to be taken for a file that is still being written.
        Files.setLastModifiedTime(file, FileTime.from(Instant.parse("2026-01-01T00:00:00Z")));
    }

    /**
     * An hour indoors at 30 km/h with power that rises and falls, as one of two devices records it.
     *
     * @param unit serial of the device
     * @param shows share of the power at the cranks
     * @param lag seconds by which its clock is ahead
     * @param jump watts that it shows more from half-way on
     */
    private static String powered(String unit, OffsetDateTime start, double shows, int lag, double jump) {
        StringBuilder b = new StringBuilder(
                "<TrainingCenterDatabase><Activities><Activity Sport=\"Biking\"><Id>" + start + "</Id><Lap StartTime=\""
                        + DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(start.plusSeconds(lag)) + "\"><Track>");
        for (int t = 0; t <= 3600; t += 4) {
            double watts = shows * (190 + 45 * Math.sin(t / 97.0) + 30 * Math.sin(t / 211.0)) + (t > 1800 ? jump : 0);
            b.append("<Trackpoint><Time>")
                    .append(DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(start.plusSeconds(t + lag)))
                    .append("</Time><DistanceMeters>")
                    .append(Math.round(t / 0.12))
                    .append("</DistanceMeters><Cadence>85</Cadence><Extensions><TPX><Watts>")
                    .append(Math.round(watts))
                    .append("</Watts></TPX></Extensions></Trackpoint>");
        }
        return b + "</Track></Lap><Creator><UnitId>" + unit
                + "</UnitId></Creator></Activity></Activities></TrainingCenterDatabase>";
    }

    /** A track due east along the equator, a point every 20 s at 25 km/h. */
    private static String gpx(OffsetDateTime start, double km, String type) {
        StringBuilder b = new StringBuilder("<gpx version=\"1.1\"><trk>");
        if (!type.isEmpty()) {
            b.append("<type>").append(type).append("</type>");
        }
        b.append("<trkseg>");
        int steps = (int) Math.max(1, Math.round(km * 1000 / (25 / 3.6) / 20));
        for (int i = 0; i <= steps; i++) {
            b.append("<trkpt lat=\"0\" lon=\"")
                    .append(-30 + km * 1000 / DEGREE * i / steps)
                    .append("\"><time>")
                    .append(DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(start.plusSeconds(20L * i)))
                    .append("</time></trkpt>");
        }
        return b.append("</trkseg></trk></gpx>").toString();
    }
}
