package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import biweekly.Biweekly;
import biweekly.component.VEvent;
import chainage.host.Terminal;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** In a home of its own, with schedulers that are small scripts: real processes, and nothing outside is touched. */
class NightlyTest {
    private static final Instant NOW = Instant.parse("2026-06-01T12:00:00Z");

    @TempDir
    Path folder;

    private Path home = Path.of("");
    private Path bin = Path.of("");
    private Path exports = Path.of("");

    @BeforeEach
    void makeAHome() throws IOException {
        home = Files.createDirectory(folder.resolve("home"));
        bin = Files.createDirectory(folder.resolve("bin"));
        exports = Files.createDirectory(folder.resolve("my exports"));
    }

    private Run run(String... args) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        Map<String, String> environment = Map.of("HOME", home.toString(), "PATH", bin.toString());
        Terminal terminal = new Terminal(
                new PrintWriter(out), new PrintWriter(err), false, 80, environment, Clock.fixed(NOW, ZoneOffset.UTC));
        int code = Main.run(terminal, args);
        return new Run(code, out.toString(), err.toString());
    }

    private void script(String name, String body) throws IOException {
        Path script = bin.resolve(name);
        Files.writeString(script, "#!/bin/sh\n" + body + "\n");
        assertTrue(script.toFile().setExecutable(true));
    }

    private void crontab() throws IOException {
        Path table = folder.resolve("table");
        script(
                "crontab",
                "t='" + table + "'\ncase \"$1\" in\n"
                        + "-l) if [ -f \"$t\" ]; then /bin/cat \"$t\"; else echo 'no crontab for me' >&2; exit 1; fi;;\n"
                        + "-r) /bin/rm \"$t\";;\n"
                        + "-) /bin/cat > \"$t\";;\nesac");
    }

    private List<String> everythingIn(Path place) throws IOException {
        try (Stream<Path> all = Files.walk(place)) {
            return all.map(p -> place.relativize(p).toString()).sorted().toList();
        }
    }

    @Test
    void showsWhatItWouldDoAndWritesNothing() throws IOException {
        script("systemctl", "echo \"$@\" >> '" + folder.resolve("asked") + "'");
        Run shown = run("nightly", exports.toString());
        assertEquals(0, shown.code(), shown.err());
        assertTrue(shown.out().contains("OnCalendar=*-*-* 03:30:00"), shown.out());
        assertTrue(shown.err().contains("nothing written"), shown.err());
        assertEquals(List.of(""), everythingIn(home));
        assertEquals(List.of("--user show-environment"), Files.readAllLines(folder.resolve("asked")));
    }

    @Test
    void systemdTakesItAndGivesItBackWithoutTrace() throws IOException {
        Path asked = folder.resolve("asked");
        script("systemctl", "echo \"$@\" >> '" + asked + "'");
        Run set = run("nightly", exports.toString(), "--install", "--time", "22:05");
        assertEquals(0, set.code(), set.err());
        Path units = home.resolve(".config/systemd/user");
        assertTrue(Files.readString(units.resolve("chainage-nightly.timer")).contains("22:05:00"));
        assertTrue(Files.readString(units.resolve("chainage-nightly.service")).contains("\"" + exports + "\""));
        Run removed = run("nightly", "--remove");
        assertEquals(0, removed.code(), removed.err());
        assertEquals(
                List.of(
                        "--user show-environment",
                        "--user daemon-reload",
                        "--user enable --now chainage-nightly.timer",
                        "--user disable --now chainage-nightly.timer",
                        "--user daemon-reload"),
                Files.readAllLines(asked));
        assertFalse(Files.exists(home.resolve(".config/systemd")), () -> "left: " + home);
        assertEquals("Nothing was set up.\n", run("nightly", "--remove").out());
    }

    @Test
    void whatSystemdRefusesLeavesNothing() throws IOException {
        script("systemctl", "case \"$2\" in enable) echo 'not today' >&2; exit 1;; esac");
        Run set = run("nightly", exports.toString(), "--install");
        assertEquals(73, set.code());
        assertTrue(set.err().contains("not today"), set.err());
        assertFalse(Files.exists(home.resolve(".config/systemd")));
    }

    @Test
    void cronIsAskedWhereSystemdDoesNotRun() throws IOException {
        script("systemctl", "exit 1");
        crontab();
        Files.writeString(folder.resolve("table"), "0 5 * * * something else\n");
        assertEquals(0, run("nightly", exports.toString(), "--install").code());
        assertEquals(
                0,
                run("nightly", exports.toString(), "--install", "--time", "4:00")
                        .code());
        List<String> table = Files.readAllLines(folder.resolve("table"));
        assertEquals(2, table.size(), table::toString);
        assertTrue(table.get(1).startsWith("0 4 * * * "), table::toString);
        assertTrue(run("nightly", "--remove").out().contains("cron"));
        assertEquals("0 5 * * * something else\n", Files.readString(folder.resolve("table")));
    }

    @Test
    void anEmptyCrontabIsTakenAwayAgain() throws IOException {
        crontab();
        assertEquals(0, run("nightly", exports.toString(), "--install").code());
        assertTrue(run("nightly", "--remove").out().contains("cron"));
        assertFalse(Files.exists(folder.resolve("table")));
    }

    @Test
    void withoutAnySchedulerItSaysWhatToCall() {
        Run set = run("nightly", exports.toString(), "--install");
        assertEquals(78, set.code());
        assertTrue(set.err().contains("nightly --run"), set.err());
    }

    @Test
    void mistakesAreToldBeforeAnythingIsWritten() {
        assertEquals(64, run("nightly").code());
        assertEquals(66, run("nightly", folder.resolve("nowhere").toString()).code());
        assertEquals(64, run("nightly", exports.toString(), "--with", "hope").code());
        assertEquals(
                64,
                run("nightly", exports.toString(), "--with", "cron", "--time", "25:00")
                        .code());
        assertEquals(
                64, run("nightly", exports.toString(), "--install", "--remove").code());
    }

    @Test
    void aQuietNightSaysNothingAndADueChainSpeaks() throws IOException {
        ride("a.gpx", "2026-03-02T08:00:00Z", 60);
        Path ics = folder.resolve("chains.ics");
        Path page = folder.resolve("chains.html");
        String[] night = {
            "nightly", exports.toString(), "--run", "--calendar", ics.toString(), "--page", page.toString()
        };
        // Before any chain nothing can be due.
        Run first = run(night);
        assertEquals(0, first.code(), first.err());
        assertEquals("", first.out());
        ledger();
        assertEquals("", run(night).out());
        List<VEvent> before = Biweekly.parse(Files.readString(ics)).first().getEvents();
        // A long ride uses the treatment up, and a broken file is refused.
        ride("b.gpx", "2026-05-20T08:00:00Z", 900);
        Files.writeString(exports.resolve("c.gpx"), "<gpx><trk>");
        old(exports.resolve("c.gpx"));
        Run loud = run(night);
        assertEquals(65, loud.code());
        assertTrue(loud.out().contains("c.gpx: the XML ends too early"), loud.out());
        assertTrue(loud.out().contains("\nAmber, on Dunlin. "), loud.out());
        assertTrue(loud.out().contains("treat it now.\nHot wax: water bath"), loud.out());
        String log = Files.readString(home.resolve(".local/state/chainage/nightly.log"));
        assertTrue(log.contains("3 files: 1 imported (900 km), 1 known, 1 refused."), log);
        assertTrue(Files.readString(page).contains("Amber"), "the page was made anew");
        VEvent treat = Biweekly.parse(Files.readString(ics)).first().getEvents().stream()
                .filter(e -> e.getSummary().getValue().startsWith("Treat Amber"))
                .findFirst()
                .orElseThrow();
        before.stream()
                .filter(e -> e.getSummary().getValue().startsWith("Treat Amber"))
                .forEach(e -> assertEquals(e.getUid(), treat.getUid(), "the same event, moved"));
        Run next = run(night);
        assertEquals(0, next.code());
        assertEquals("", next.out(), "nothing is said twice");
        // Off its bike the chain has no date any more, which the rider's own calendar is told.
        assertEquals(0, run("remove", "Amber", "--on", "2026-06-01").code());
        assertEquals(0, run(night).code());
        VEvent gone = Biweekly.parse(Files.readString(ics)).first().getEvents().stream()
                .filter(e -> e.getUid().equals(treat.getUid()))
                .findFirst()
                .orElseThrow();
        assertEquals("CANCELLED", gone.getStatus().getValue());
    }

    private void ledger() {
        for (String[] c : List.of(
                new String[] {"bike", "add", "Dunlin"},
                new String[] {"chain", "add", "Amber", "--speeds", "11"},
                new String[] {"install", "Amber", "Dunlin", "--on", "2026-03-01"},
                new String[] {"treat", "Amber", "hot-wax", "--cleaning", "deep", "--on", "2026-03-01"})) {
            assertEquals(0, run(c).code(), String.join(" ", c));
        }
    }

    @Test
    void aChainIsSpokenOfAgainWhenSomethingChanged() throws IOException {
        ledger();
        ride("a.gpx", "2026-03-02T08:00:00Z", 400);
        String[] night = {"nightly", exports.toString(), "--run"};
        assertTrue(run(night).out().contains("treat it now"));
        assertEquals("", run(night).out());
        // A few kilometres more are no news, a further treatment's worth is.
        ride("b.gpx", "2026-03-03T08:00:00Z", 5);
        assertEquals("", run(night).out());
        ride("c.gpx", "2026-03-04T08:00:00Z", 400);
        assertTrue(run(night).out().contains("treat it now"));
        // Done, it is no longer due; due again, it is spoken of again.
        String[] treated = {"treat", "--on", "2026-03-05", "Amber", "hot-wax"};
        assertEquals(0, run(treated).code());
        assertEquals("", run(night).out());
        ride("d.gpx", "2026-03-06T08:00:00Z", 400);
        assertTrue(run(night).out().contains("treat it now"));
        assertEquals("", run(night).out());
        // What was said is a note beside: without it all is said once more, and nothing else is lost.
        Files.delete(home.resolve(".local/state/chainage/nightly.told"));
        assertTrue(run(night).out().contains("treat it now"));
        // What was said of another ledger counts for that one alone.
        Path told = home.resolve(".local/state/chainage/nightly.told");
        String[] kept = Files.readString(told).split("\n", 2);
        Files.writeString(told, kept[0] + "-other\n" + kept[1]);
        assertTrue(run(night).out().contains("treat it now"));
    }

    @Test
    void theMessageGoesToTheCommandUntilItTakesIt() throws IOException {
        ledger();
        ride("a.gpx", "2026-03-02T08:00:00Z", 900);
        Files.createSymbolicLink(bin.resolve("sh"), Path.of("/bin/sh"));
        Path got = folder.resolve("got it");
        Run refused = run("nightly", exports.toString(), "--run", "--then", "echo 'no mail today' >&2; exit 3");
        assertEquals(74, refused.code());
        assertTrue(refused.out().contains("treat it now"), refused.out());
        assertTrue(refused.err().contains("(exit 3): no mail today"), refused.err());
        String[] night = {"nightly", exports.toString(), "--run", "--then", "/bin/cat > '" + got + "'"};
        Run taken = run(night);
        assertEquals(0, taken.code(), taken.err());
        assertEquals(taken.out(), Files.readString(got));
        assertTrue(taken.out().contains("treat it now"), taken.out());
        Files.delete(got);
        Run quiet = run(night);
        assertEquals(0, quiet.code());
        assertFalse(Files.exists(got), "the command does not run when there is nothing to say");
        // A command that does not read what it is given took it all the same.
        Files.delete(home.resolve(".local/state/chainage/nightly.told"));
        assertEquals(
                0, run("nightly", exports.toString(), "--run", "--then", "true").code());
    }

    @Test
    void theDesktopShowsItAsPlainText() throws IOException {
        Path shown = folder.resolve("shown");
        script("notify-send", "printf '%s\\n' \"$@\" > '" + shown + "'");
        for (String[] c : List.of(
                new String[] {"bike", "add", "Dunlin"},
                new String[] {"chain", "add", "<b>A&B", "--speeds", "11"},
                new String[] {"install", "<b>A&B", "Dunlin", "--on", "2026-03-01"})) {
            assertEquals(0, run(c).code(), String.join(" ", c));
        }
        ride("a.gpx", "2026-03-02T08:00:00Z", 900);
        Run night = run("nightly", exports.toString(), "--run", "--notify");
        assertEquals(0, night.code(), night.err());
        List<String> words = Files.readAllLines(shown);
        assertEquals(List.of("--app-name=chainage", "--", "chainage"), words.subList(0, 3));
        assertTrue(words.get(3).startsWith("&lt;b&gt;A&amp;B, on Dunlin. "), words.get(3));
    }

    @Test
    void aNightThatNobodyCanHearIsToldOfWhenItIsSetUp() throws IOException {
        script("systemctl", "");
        Run none = run("nightly", exports.toString(), "--notify", "--install");
        assertEquals(78, none.code());
        assertTrue(none.err().contains("--then"), none.err());
        Run unheard = run("nightly", exports.toString(), "--install");
        assertTrue(unheard.out().contains("to hear it, add --notify or --then"), unheard.out());
        script("notify-send", "");
        Run set = run("nightly", exports.toString(), "--install", "--notify", "--then", "mail -s \"my chains\" anna");
        assertEquals(0, set.code(), set.err());
        assertFalse(set.out().contains("to hear it"), set.out());
        String unit = Files.readString(home.resolve(".config/systemd/user/chainage-nightly.service"));
        assertTrue(unit.contains("\"--then\" \"mail -s \\\"my chains\\\" anna\" \"--notify\""), unit);
        assertTrue(unit.contains("\nUMask=0077\n"), unit);
        assertTrue(unit.contains("\"JAVA_HOME=" + System.getProperty("java.home") + "\""), "the Java that runs now");
        assertEquals(
                64, run("nightly", exports.toString(), "--then", "one\ntwo").code());
    }

    @Test
    void whatANightKeepsIsForItsOwnerAlone() throws IOException {
        ride("a.gpx", "2026-03-02T08:00:00Z", 10);
        Path kept = home.resolve(".local/state/chainage");
        Files.createDirectories(kept);
        Files.createFile(
                kept.resolve("nightly.log"),
                PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-r--r--")));
        script("launchctl", "");
        assertEquals(
                0,
                run("nightly", exports.toString(), "--install", "--with", "launchd")
                        .code());
        ledger();
        ride("b.gpx", "2026-03-03T08:00:00Z", 900);
        assertTrue(run("nightly", exports.toString(), "--run").out().contains("treat it now"));
        List<String> modes = new ArrayList<>();
        try (Stream<Path> all = Files.list(kept)) {
            for (Path f : all.sorted().toList()) {
                modes.add(PosixFilePermissions.toString(Files.getPosixFilePermissions(f)) + " " + f.getFileName());
            }
        }
        assertEquals(List.of("rw------- nightly.log", "rw------- nightly.out", "rw------- nightly.told"), modes);
        assertEquals(0, run("nightly", "--remove").code());
        assertFalse(Files.exists(kept));
    }

    @Test
    void windowsIsAskedByItsOwnProgram() throws IOException {
        Path asked = folder.resolve("asked");
        Path task = folder.resolve("task");
        script(
                "schtasks.exe",
                "echo \"$1 $2 $3\" >> '" + asked + "'\n[ \"$1\" != /Create ] || /bin/cat \"$5\" > '" + task + "'");
        Run set = run("nightly", exports.toString(), "--install");
        assertEquals(0, set.code(), set.err());
        assertTrue(Files.readString(task, StandardCharsets.UTF_16).contains("\"" + exports + "\""));
        assertTrue(run("nightly", "--remove").out().contains("schtasks"));
        assertEquals(
                List.of("/Create /TN chainage-nightly", "/Query /TN chainage-nightly", "/Delete /TN chainage-nightly"),
                Files.readAllLines(asked));
    }

    /** A disk that is not mounted is no reason to leave the other folders, or what is due, for another night. */
    @Test
    void aMissingFolderKeepsTheOthersFromNothing() throws IOException {
        ride("a.gpx", "2026-03-02T08:00:00Z", 900);
        ledger();
        Path gone = folder.resolve("stick");
        Run night = run("nightly", gone.toString(), exports.toString(), "--run");
        assertEquals(66, night.code(), night.err());
        assertTrue(night.out().contains("\"" + gone + "\" is not there"), night.out());
        assertTrue(night.out().contains("Amber, on Dunlin. "), night.out());
        Run again = run("nightly", gone.toString(), exports.toString(), "--run");
        assertEquals(66, again.code());
        assertEquals("", again.out(), "said once");
        Files.delete(home.resolve(".local/state/chainage/nightly.told"));
        Run alone = run("nightly", gone.toString(), "--run");
        assertEquals(66, alone.code());
        assertTrue(alone.out().contains("Amber, on Dunlin. "), alone.out());
    }

    /** Behind a link ".." is beside what the link points to, not beside the link. */
    @Test
    void aFolderBesideALinkIsTheOneThatTheSystemMeans() throws IOException {
        Path there = Files.createDirectories(folder.resolve("disk/rides"));
        Files.createDirectory(folder.resolve("disk/exports"));
        Path link = Files.createSymbolicLink(folder.resolve("link"), there);
        script("systemctl", "");
        Run set = run("nightly", link + "/../exports", "--install");
        assertEquals(0, set.code(), set.err());
        String unit = Files.readString(home.resolve(".config/systemd/user/chainage-nightly.service"));
        assertTrue(unit.contains("\"" + folder.toRealPath().resolve("disk/exports") + "\""), unit);
    }

    private void ride(String name, String start, double km) throws IOException {
        List<String> points = new ArrayList<>();
        int steps = (int) (km * 1000 / (25 / 3.6) / 20);
        Instant t = Instant.parse(start);
        for (int i = 0; i <= steps; i++) {
            points.add("<trkpt lat=\"0\" lon=\"" + (-30 + km * 1000 / 111_319.49 * i / steps) + "\"><time>"
                    + t.plusSeconds(20L * i) + "</time></trkpt>");
        }
        Files.writeString(
                exports.resolve(name),
                "<gpx version=\"1.1\"><trk><type>cycling</type><trkseg>" + String.join("", points)
                        + "</trkseg></trk></gpx>");
        old(exports.resolve(name));
    }

    private static void old(Path file) throws IOException {
        Files.setLastModifiedTime(file, FileTime.from(Instant.parse("2026-01-01T00:00:00Z")));
    }
}
