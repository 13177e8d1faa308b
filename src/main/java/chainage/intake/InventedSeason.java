package chainage.intake;

import chainage.host.Resource;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The files of an invented rider's season, which come with the program. */
public final class InventedSeason {
    /** What was stated before the season, a command a line; not put beside the rides. */
    private static final String SETUP = "setup.txt";

    /** What came beside the rides: titles, notes, bikes. */
    public static final String TABLE = "rides.csv";

    public static final String WEATHER = "weather/reports-2026.txt.gz";
    /** Near the season's rides, in open ocean. */
    public static final String STATION = "0.1,-30.2";

    private static final String SEASON = "/chainage/fixtures/season/";
    private static final Pattern WORD = Pattern.compile("\"([^\"]*)\"|(\\S+)");

    private InventedSeason() {}

    /** What was stated before it, a command each. */
    public static List<List<String>> setUp() {
        return Resource.text(SEASON + SETUP)
                .lines()
                .filter(line -> !line.isBlank() && !line.startsWith("#"))
                .map(InventedSeason::words)
                .toList();
    }

    /**
     * What may be tried on it, a line each; what is to be typed stands back.
     *
     * @param program how a command begins
     * @param place where it lies
     */
    public static List<String> tour(String program, Path place) {
        return Resource.text("/chainage/intake/tour.txt")
                .replace("PROGRAM", program)
                .replace("PLACE", place.toString())
                .lines()
                .toList();
    }

    /** Puts its files into a folder. */
    public static void unpack(Path to) throws IOException {
        for (String name : Resource.text(SEASON + "index.txt").lines().toList()) {
            if (name.isBlank() || name.equals(SETUP)) {
                continue;
            }
            Path file = to.resolve(name).normalize();
            Files.createDirectories(Objects.requireNonNull(file.getParent()));
            try (InputStream in = Resource.open(SEASON + name)) {
                Files.copy(in, file);
            }
            // Dated like the season, so that the broken file is not taken for one that is still being written.
            Files.setLastModifiedTime(file, FileTime.from(Instant.parse("2026-08-31T18:00:00Z")));
        }
    }

    /** A line as it is typed, by words; quotes hold one together. */
    public static List<String> words(String line) {
        List<String> words = new ArrayList<>();
        Matcher m = WORD.matcher(line);
        while (m.find()) {
            words.add(m.group(1) == null ? m.group(2) : m.group(1));
        }
        return words;
    }
}
