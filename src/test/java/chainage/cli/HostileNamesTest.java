package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.typed.ExitCode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Text from files, file names and the command line that would move a terminal's cursor, change its colours or its
 * direction, or write into another program: no command prints it as it is.
 */
class HostileNamesTest {
    /** Escape, bell, carriage return, the one-byte form of escape-[, right-to-left override, line separator. */
    private static final String HARM = "\u001b]0;owned\u0007\u001b[2J\u009b31m\u202egnp\u2028\r";

    @TempDir
    Path dir = Path.of("");

    private Run run(String... words) {
        List<String> args =
                new ArrayList<>(List.of("--ledger", dir.resolve("l.sqlite").toString()));
        args.addAll(List.of(words));
        return Run.of(args.toArray(String[]::new));
    }

    private static String gpx(String start, String title) {
        Instant from = Instant.parse(start);
        StringBuilder b = new StringBuilder(
                "<gpx version=\"1.1\"><trk><name>" + title + "</name><type>cycling" + "</type><trkseg>");
        for (int i = 0; i <= 60; i++) {
            b.append(String.format(
                    Locale.ROOT,
                    "<trkpt lat=\"0\" lon=\"%.5f\"><time>%s</time></trkpt>",
                    -30 + i * 0.00125,
                    from.plusSeconds(20L * i)));
        }
        return b.append("</trkseg></trk></gpx>").toString();
    }

    private static void old(Path file) throws IOException {
        Files.setLastModifiedTime(file, FileTime.from(Instant.parse("2026-01-01T00:00:00Z")));
    }

    private Path rides() throws IOException {
        Path rides = Files.createDirectories(dir.resolve("rides"));
        Path file = rides.resolve("a\u001b[31m\r\n\u202e.gpx");
        // XML lets no control characters in but these; the rest comes by names of files and of archives' entries.
        Files.writeString(file, gpx("2026-03-01T08:00:00Z", "wet&#x9b;31m&#x202e; &#x2028;&#13;lane"));
        old(file);
        Path broken = rides.resolve("b\u001b[2J.fit");
        Files.writeString(broken, "no ride");
        old(broken);
        Path archive = rides.resolve("c.zip");
        try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(archive))) {
            zip.putNextEntry(new ZipEntry("in" + HARM + "/x.gpx"));
            zip.write(gpx("2026-03-02T08:00:00Z", "dry").getBytes(StandardCharsets.UTF_8));
            zip.putNextEntry(new ZipEntry("../" + HARM + ".gpx"));
            zip.write('x');
        }
        old(archive);
        return rides;
    }

    @Test
    void noCommandPrintsWhatATerminalWouldObey() throws IOException {
        String rides = rides().toString();
        String name = "Amber" + HARM;
        List<List<String>> commands = List.of(
                List.of("import", rides),
                List.of("import", rides, "--json"),
                List.of("refused"),
                List.of("refused", "--json"),
                List.of("bike", "add", "Dunlin" + HARM),
                List.of("bike", "add", "Dunlin"),
                List.of("chain", "add", name),
                List.of("chain", "add", "Amber"),
                List.of("install", name, "Dunlin"),
                List.of("install", "Amber", "Dunlin", "--on", "2026-02-01"),
                List.of("remark", "Amber", "noisy", "since " + HARM, "--on", "2026-02-02"),
                List.of("assign", "--path", "in" + HARM, "--bike", "Dunlin"),
                List.of("assign"),
                List.of("words", "set", "lane" + HARM, "gritty"),
                List.of("words", "set", "lane", "gritty"),
                List.of("rides"),
                List.of("rides", "--why"),
                List.of("rides", "--json"),
                List.of("conditions", "last"),
                List.of("conditions", "2026-03-01"),
                List.of("due", "--why", "Amber"),
                List.of("due", "--json"),
                List.of("log"),
                List.of("log", "--json"),
                List.of("tag", HARM, "wet"),
                List.of("treat", "Amber", HARM),
                List.of(HARM),
                List.of("--zone", HARM, "due"),
                List.of("--units", HARM, "due"),
                List.of("--at", HARM, "due"),
                List.of("weather", "add", dir.resolve(HARM).toString()),
                List.of("import", dir.resolve(HARM).toString()),
                List.of("course", dir.resolve(HARM).toString()),
                List.of("export", "-o", dir.resolve(HARM + "/x").toString()),
                List.of("backup", dir.resolve("to" + HARM).toString()),
                List.of("check"),
                List.of("export"));
        for (List<String> command : commands) {
            Run r = run(command.toArray(String[]::new));
            String title = String.join(" ", command);
            assertTrue(r.code() != ExitCode.BUG.code(), title + ": " + r);
            assertEquals("", obeyed(r.out()), title + ", answer");
            assertEquals("", obeyed(r.err()), title + ", beside it");
        }
        assertFalse(run("rides").out().isEmpty());
    }

    /** A name that a shell would run, in what is to be typed next, stands between single quotes. */
    @Test
    void noHintRunsANameWhenItIsPasted() throws IOException {
        String name = "a $(x) b";
        Path rides = Files.createDirectories(dir.resolve("of " + name));
        Files.writeString(rides.resolve("1.gpx"), gpx("2026-03-01T08:00:00Z", name));
        old(rides.resolve("1.gpx"));
        Path table = Files.writeString(dir.resolve("t.csv"), "Date,Chain,What\n2026-03-01," + name + "," + name + "\n");
        Pattern run = Pattern.compile("(?:chainage |--)[^\"'\n]*\"[^\"\n]*[$][(]");
        int named = 0;
        for (List<String> command : List.of(
                List.of("import", rides.toString()),
                List.of("bike", "add", name),
                List.of("chain", "add", name),
                List.of("install", name, name, "--on", "2026-02-01"),
                List.of("install", name, name, "--on", "2026-01-01"),
                List.of("product", "add", name),
                List.of("treat", name, name),
                List.of("assign", "--path", "$(x)", "--bike", name),
                List.of("assign", "last", "--bike", "b" + name),
                List.of("logbook", "from", table.toString()),
                List.of("evidence", "remove", name),
                List.of("words", "set", name, "gritty"),
                List.of("backup", dir.resolve(name).toString()),
                List.of("backup", dir.resolve(name).toString()),
                List.of("restore", dir.resolve(name).toString()),
                List.of("export", "-o", rides.resolve("1.gpx").toString()),
                List.of("check"),
                List.of("chain"),
                List.of("due"))) {
            Run r = run(command.toArray(String[]::new));
            String said = r.out().replaceAll("\\s+", " ") + "\n" + r.err();
            named += said.contains("$(x)") ? 1 : 0;
            assertFalse(run.matcher(said).find(), String.join(" ", command) + ": " + said);
        }
        assertTrue(named > 10, named + " answers hold the name");
    }

    /** What of it a terminal obeys. */
    private static String obeyed(String text) {
        StringBuilder found = new StringBuilder();
        text.chars()
                .filter(c -> (c < ' ' && c != '\n') || (c >= 0x7F && c <= 0x9F) || c == '\u202e' || c == '\u2028')
                .forEach(c -> found.append(String.format(Locale.ROOT, "U+%04X ", c)));
        return found.toString();
    }
}
