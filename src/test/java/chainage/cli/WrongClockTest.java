package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.typed.ExitCode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A computer without a battery for its clock starts in 1970, imports, and learns the time afterwards. */
class WrongClockTest {
    private static final Instant UNSET = Instant.parse("1970-01-01T00:03:00Z");
    private static final Instant NOW = Instant.parse("2026-11-01T12:00:00Z");

    @TempDir
    Path dir = Path.of("");

    private Run at(Instant now, String... command) {
        String[] args = new String[command.length + 2];
        args[0] = "--ledger";
        args[1] = dir.resolve("ledger.sqlite").toString();
        System.arraycopy(command, 0, args, 2, command.length);
        return Run.at(now, args);
    }

    private static String ride(Instant start) {
        StringBuilder text = new StringBuilder("<gpx><trk><type>cycling</type><trkseg>");
        for (int i = 0; i < 20; i++) {
            text.append(
                    "<trkpt lat='48.%03d' lon='11'><time>%s</time></trkpt>".formatted(i, start.plusSeconds(20L * i)));
        }
        return text + "</trkseg></trk></gpx>";
    }

    @Test
    void ridesRefusedUnderAWrongClockComeInUnderTheRightOne() throws IOException {
        Path rides = Files.createDirectory(dir.resolve("rides"));
        Instant first = Instant.parse("2026-10-01T08:00:00Z");
        for (int i = 0; i < 10; i++) {
            Files.writeString(rides.resolve(i + ".gpx"), ride(first.plusSeconds(86_400L * i)));
        }
        Files.writeString(rides.resolve("never.gpx"), ride(Instant.parse("2087-01-01T08:00:00Z")));
        Run unset = at(UNSET, "import", rides.toString());
        assertEquals(ExitCode.REFUSED.code(), unset.code(), unset.err());
        assertTrue(unset.out().contains("11 refused"), unset.out());
        assertTrue(unset.err().contains("where this computer's clock is wrong, set it and import again"), unset.err());
        assertTrue(
                at(UNSET, "import", rides.toString()).out().contains("11 known"), "nothing new under the same clock");

        Files.setLastModifiedTime(rides.resolve("3.gpx"), FileTime.from(NOW));
        Run dry = at(NOW, "import", rides.toString(), "--dry-run");
        assertTrue(dry.out().contains("10 imported"), dry.out());
        Run set = at(NOW, "import", rides.toString());
        assertEquals(0, set.code(), set.err());
        assertTrue(set.out().contains("11 files: 10 imported"), set.out());
        assertTrue(set.out().contains("1 known"), set.out());
        assertTrue(at(NOW, "refused").out().contains("never.gpx: an activity"), "still ahead");
        assertEquals(1, at(NOW, "refused").out().lines().count());
        assertTrue(at(NOW, "import", rides.toString()).out().startsWith("11 files: 11 known."));
    }

    @Test
    void anExportCarriesWhatHungOnTheClock() throws IOException {
        Path file = Files.writeString(dir.resolve("ride.gpx"), ride(Instant.parse("2026-10-01T08:00:00Z")));
        at(UNSET, "import", file.toString());
        Path export =
                Files.writeString(dir.resolve("all.jsonl"), at(NOW, "export").out());
        Files.delete(dir.resolve("ledger.sqlite"));
        assertEquals(0, at(NOW, "import", export.toString()).code());
        assertEquals(Files.readString(export), at(NOW, "export").out());
        assertTrue(at(NOW, "import", file.toString()).out().startsWith("1 file: 1 imported"));
    }
}
