package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeFalse;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import chainage.command.Chainage;
import chainage.host.Terminal;
import chainage.quantity.PlainText;
import chainage.typed.ExitCode;
import chainage.typed.Topics;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Trouble with the ledger itself: a line that says what, how to mend it, and the right exit code. */
class TroubleTest {
    @TempDir
    Path dir = Path.of("");

    private Run run(String ledger, String... command) {
        String[] args = new String[command.length + 2];
        args[0] = "--ledger";
        args[1] = dir.resolve(ledger).toString();
        System.arraycopy(command, 0, args, 2, command.length);
        return Run.of(args);
    }

    @Test
    void aFileThatIsNoLedgerIsLeftAlone() throws IOException {
        Path file = dir.resolve("notes.txt");
        Files.writeString(file, "bought a chain, and then another, and then some more");
        Run r = run("notes.txt", "bike", "add", "Dunlin");
        assertEquals(ExitCode.CONFIGURATION.code(), r.code(), r.err());
        assertEquals(1, r.err().lines().count(), r.err());
        assertEquals("bought a chain, and then another, and then some more", Files.readString(file));
    }

    @Test
    void aPlaceThatCannotBeWrittenIsSaidSo() throws IOException {
        Files.writeString(dir.resolve("file"), "x");
        Run r = run("file/ledger.sqlite", "bike", "add", "Dunlin");
        assertEquals(ExitCode.CANNOT_CREATE.code(), r.code(), r.err());
        assertEquals(1, r.err().lines().count(), r.err());
    }

    @Test
    void aLedgerUnderAPathWithSpacesAndOtherLettersWorks() {
        assertEquals(
                0, run("mes vélos — 車/ledger.sqlite", "bike", "add", "Dunlin").code());
        assertTrue(run("mes vélos — 車/ledger.sqlite", "bike").out().contains("Dunlin"));
    }

    @Test
    void aContradictionInTheLedgerIsShownByDueWith65() {
        run("l.sqlite", "bike", "add", "Dunlin");
        run("l.sqlite", "chain", "add", "Amber");
        run("l.sqlite", "install", "Amber", "Dunlin", "--on", "2026-03-01");
        assertEquals(0, run("l.sqlite", "due").code());
        Run refused = run("l.sqlite", "undo", "1");
        assertEquals(ExitCode.USAGE.code(), refused.code());
    }

    /** Once it was held in memory as a whole, and the program ended with a trace. */
    @Test
    void aLineWithoutEndAmongWeatherRecordsIsRefused() throws IOException {
        Path bomb = dir.resolve("rain.csv.gz");
        try (OutputStream out = new GZIPOutputStream(Files.newOutputStream(bomb))) {
            out.write("time,precipitation\n2026-03-01T00:00Z,".getBytes(StandardCharsets.UTF_8));
            byte[] zeros = new byte[1 << 20];
            Arrays.fill(zeros, (byte) '0');
            for (int i = 0; i < 3; i++) {
                out.write(zeros);
            }
        }
        Run r = run("l.sqlite", "weather", "add", bomb.toString());
        assertEquals(ExitCode.REFUSED.code(), r.code(), r.err());
        assertEquals(
                "chainage: " + bomb
                        + ":2: is longer than any line of weather records; name a text of reports or a table\n",
                r.err());
        assertFalse(Files.exists(dir.resolve("l.sqlite")));
    }

    /** Once the answer was that there is no ledger yet. */
    @Test
    void aLedgerInAFolderThatMayNotBeEnteredIsNotSaidToBeMissing() throws IOException {
        assumeFalse("root".equals(System.getProperty("user.name")), "root may enter anywhere");
        Path shut = Files.createDirectory(dir.resolve("shut"));
        run("shut/l.sqlite", "bike", "add", "Dunlin");
        Files.setPosixFilePermissions(shut, PosixFilePermissions.fromString("---------"));
        try {
            Run r = run("shut/l.sqlite", "due");
            assertEquals(ExitCode.IO.code(), r.code(), r.out());
            assertEquals(
                    "chainage: \"" + shut.resolve("l.sqlite") + "\" may not be read; check its permissions\n", r.err());
        } finally {
            Files.setPosixFilePermissions(shut, PosixFilePermissions.fromString("rwx------"));
        }
    }

    /** Once the message named no file. */
    @Test
    void weatherRecordsWhoseGzipStreamEndsTooEarlyAreRefusedByName() throws IOException {
        Path torn = dir.resolve("rain.csv.gz");
        ByteArrayOutputStream whole = new ByteArrayOutputStream();
        try (OutputStream out = new GZIPOutputStream(whole)) {
            out.write("time,precipitation\n2026-03-01T00:00Z,0.1\n".getBytes(StandardCharsets.UTF_8));
        }
        Files.write(torn, Arrays.copyOf(whole.toByteArray(), whole.size() - 4));
        Run r = run("l.sqlite", "weather", "add", torn.toString());
        assertEquals(ExitCode.REFUSED.code(), r.code(), r.err());
        assertEquals("chainage: " + torn + ": the gzip stream ends too early; fetch or copy it again\n", r.err());
        assertFalse(Files.exists(dir.resolve("l.sqlite")));
    }

    /** Once the words in the file "o" were taken for options where a file "@o" was named. */
    @Test
    void noFilesWordsAreTakenForOptions() throws IOException {
        Path options = Files.writeString(dir.resolve("o"), "--help\n");
        Run r = run("l.sqlite", "import", "@" + options);
        assertEquals(ExitCode.NO_SUCH_FILE.code(), r.code(), r.out());
        assertEquals("chainage: \"@" + options + "\" does not exist; check the path\n", r.err());
        Run deeper = run("l.sqlite", "weather", "add", "@" + options);
        assertEquals(ExitCode.NO_SUCH_FILE.code(), deeper.code(), deeper.out());
        Run first = Run.of("@" + options);
        assertEquals(ExitCode.USAGE.code(), first.code(), first.out());
    }

    /** Once it ended with a trace. */
    @Test
    void tooLittleMemoryIsOneSentence() {
        StringWriter err = new StringWriter();
        PrintWriter nowhere = new PrintWriter(Writer.nullWriter());
        Clock without = new Clock() {
            @Override
            public ZoneId getZone() {
                return ZoneOffset.UTC;
            }

            @Override
            public Clock withZone(ZoneId zone) {
                return this;
            }

            @Override
            public Instant instant() {
                throw new OutOfMemoryError("as a test");
            }
        };
        Terminal terminal = new Terminal(nowhere, new PrintWriter(err), false, 80, Map.of(), without);
        int code = Main.run(terminal, "--ledger", dir.resolve("l.sqlite").toString(), "import", dir.toString());
        assertEquals(ExitCode.IO.code(), code);
        assertEquals(
                "chainage: there is not enough memory for this; give it more: JAVA_TOOL_OPTIONS=-Xmx2g chainage …\n",
                err.toString());
    }

    private static byte[] member(byte[] text, int from, int to) throws IOException {
        ByteArrayOutputStream packed = new ByteArrayOutputStream();
        try (OutputStream out = new GZIPOutputStream(packed)) {
            out.write(text, from, to - from);
        }
        return packed.toByteArray();
    }

    /** Each byte a member of its own, as some that pack while they write leave them (RFC 1952, section 2.2). */
    private static byte[] members(String text) throws IOException {
        byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
        ByteArrayOutputStream members = new ByteArrayOutputStream();
        for (int i = 0; i < bytes.length; i++) {
            members.write(member(bytes, i, i + 1));
        }
        return members.toByteArray();
    }

    /** Once half of it could be missing, and nothing said so. */
    @Test
    void tablesAndExportsInManyMembersAreReadWhole() throws IOException {
        StringBuilder table = new StringBuilder("time,precipitation\n");
        for (int hour = 0; hour < 24 * 28; hour++) {
            table.append(String.format("2026-02-%02dT%02d:00Z,0.1%n", 1 + hour / 24, hour % 24));
        }
        Path rain = Files.write(dir.resolve("rain.csv.gz"), members(table.toString()));
        Run r = run("l.sqlite", "weather", "add", rain.toString(), "--json");
        assertEquals(0, r.code(), r.err());
        assertTrue(r.out().contains("\"added\" : 672"), r.out());

        String export = run("l.sqlite", "export").out();
        Path whole = Files.write(dir.resolve("all.jsonl.gz"), members(export));
        Run back = run("second.sqlite", "import", whole.toString());
        assertEquals(0, back.code(), back.err());
        assertEquals(export, run("second.sqlite", "export").out());
        byte[] cut = Files.readAllBytes(whole);
        Files.write(whole, Arrays.copyOf(cut, cut.length - 4));
        Run torn = run("third.sqlite", "import", whole.toString());
        assertEquals(ExitCode.REFUSED.code(), torn.code(), torn.err());
        assertEquals(
                "chainage: " + whole + ": the gzip stream ends too early; fetch or copy it again; nothing was taken\n",
                torn.err());
    }

    /** Once it was said not to exist. */
    @Test
    void aFolderIsNoFileOfWeatherRecords() {
        Run r = run("l.sqlite", "weather", "add", dir.toString());
        assertEquals(ExitCode.NO_SUCH_FILE.code(), r.code(), r.err());
        assertEquals("chainage: \"" + dir + "\" is no file; name the files of records themselves\n", r.err());
    }

    /** Once the rider was told to try again, and the fact stood there twice. */
    @Test
    void whatIsKeptIsSaidWhereTheAnswerIsLost() throws IOException, InterruptedException {
        Path full = Path.of("/dev/full");
        assumeTrue(Files.exists(full), "no device that is always full");
        run("l.sqlite", "chain", "add", "Amber");
        assertEquals(
                "do not repeat the command: entry 2 is kept all the same",
                lost(full, "remark", "Amber", "noisy").replaceFirst("(?s).*check the disk and (.*)\n", "$1"));
        assertTrue(run("l.sqlite", "log").out().contains("2  "));
        assertTrue(lost(full, "log").endsWith("check the disk and try again\n"));
    }

    private String lost(Path full, String... command) throws IOException, InterruptedException {
        Path err = dir.resolve("err");
        List<String> words = new java.util.ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                Main.class.getName(),
                "--ledger",
                dir.resolve("l.sqlite").toString()));
        words.addAll(List.of(command));
        Process process = new ProcessBuilder(words)
                .redirectOutput(full.toFile())
                .redirectError(err.toFile())
                .start();
        assertEquals(ExitCode.IO.code(), process.waitFor(), Files.readString(err));
        return Files.readString(err);
    }

    /** A script may mean it, so that nothing is refused. */
    @Test
    void theSameFactOfAMomentAgoIsStatedAndSaid() {
        java.time.Instant now = java.time.Instant.parse("2026-11-01T12:00:00Z");
        String dated = "chainage: entry 3 of a moment ago says the same of now; if only its date was forgotten, take it"
                + " back: chainage undo 3 (another time, chainage redate gives it its date)\n";
        String told = "chainage: the same was stated a moment ago as entry %d; if it was done once, take this one back:"
                + " chainage undo %d\n";
        at(now, "chain", "add", "Amber");
        assertEquals("", at(now, "remark", "Amber", "noisy").err());
        assertEquals(
                String.format(told, 2, 3),
                at(now.plusSeconds(40), "remark", "Amber", "noisy").err());
        assertEquals(
                dated,
                at(now.plusSeconds(41), "remark", "Amber", "noisy", "--on", "2026-10-01")
                        .err());
        assertEquals(
                dated,
                at(now.plusSeconds(42), "remark", "Amber", "noisy", "--on", "2026-10-02")
                        .err());
        assertEquals(
                String.format(told, 5, 6) + dated,
                at(now.plusSeconds(43), "remark", "Amber", "noisy", "--on", "2026-10-02")
                        .err());
        assertEquals("", at(now.plusSeconds(44), "undo", "6").err());
        assertEquals("", at(now.plusSeconds(45), "undo", "5").err());
        assertEquals(
                dated,
                at(now.plusSeconds(46), "remark", "Amber", "noisy", "--on", "2026-10-02")
                        .err());
        assertEquals("", at(now.plusSeconds(200), "remark", "Amber", "noisy").err());
    }

    private Run at(java.time.Instant now, String... command) {
        List<String> words = new java.util.ArrayList<>(
                List.of("--ledger", dir.resolve("l.sqlite").toString()));
        words.addAll(List.of(command));
        Run run = Run.at(now, words.toArray(String[]::new));
        assertEquals(0, run.code(), run.err());
        return run;
    }

    @Test
    void aDemoOverAnotherDemoIsRefused() {
        String folder = dir.resolve("demo").toString();
        assertEquals(0, Run.of("demo", "--folder", folder).code());
        Run again = Run.of("demo", "--folder", folder);
        assertEquals(ExitCode.CANNOT_CREATE.code(), again.code());
        assertTrue(again.err().contains("is there already; name an empty folder with --folder"), again.err());
    }

    @Test
    void hostileTitlesAndNamesAreHarmlessAtTheTerminal() {
        assertEquals("\uFFFD[31mred\uFFFD", PlainText.marked("\u001b[31mred\u0007"));
        assertEquals("\uFFFDgpx.exe", PlainText.marked("\u202egpx.exe"));
    }

    @Test
    void everyCommandAndOptionStandsInAGoldenSession() throws IOException {
        StringBuilder typed = new StringBuilder("$ chainage demo --folder\n$ chainage explain\n"); // tested elsewhere
        try (var files = Files.list(Path.of("src/test/resources/golden"))) {
            for (Path f : files.sorted().toList()) {
                Files.readString(f)
                        .lines()
                        .filter(l -> l.startsWith("$ "))
                        .forEach(l -> typed.append(l).append('\n'));
            }
        }
        List<String> missing = new java.util.ArrayList<>();
        collectUntyped(commandLine(), "chainage", typed.toString(), missing);
        assertEquals(List.of(), missing);
    }

    private static void collectUntyped(picocli.CommandLine command, String name, String typed, List<String> missing) {
        if (!typed.contains("$ " + name)) {
            missing.add(name);
        }
        for (picocli.CommandLine.Model.OptionSpec o : command.getCommandSpec().options()) {
            boolean named = java.util.Arrays.stream(o.names()).anyMatch(typed::contains);
            if (!named && !List.of("--ledger", "--help", "--version").contains(o.longestName())) {
                missing.add(name + " " + o.longestName());
            }
        }
        command.getSubcommands().forEach((sub, line) -> collectUntyped(line, name + " " + sub, typed, missing));
    }

    private static picocli.CommandLine commandLine() {
        picocli.CommandLine root = new picocli.CommandLine(new Chainage(
                new Terminal(
                        new java.io.PrintWriter(new java.io.StringWriter()),
                        new java.io.PrintWriter(new java.io.StringWriter()),
                        false,
                        80,
                        java.util.Map.of(),
                        java.time.Clock.systemUTC()),
                Main.RUNNER));
        Commands.addAllTo(root);
        return root;
    }

    /** Our own list stands for commands that are not made, so it must be the one that picocli makes of them all. */
    @Test
    void theHelpListsEveryCommandOnce() {
        List<String> help = Run.of("--help").out().lines().toList();
        for (String command : Commands.names()) {
            assertEquals(
                    1,
                    help.stream()
                            .filter(l -> l.matches("  " + command + " +\\S.*"))
                            .count(),
                    command);
        }
        assertEquals(List.copyOf(commandLine().getSubcommands().keySet()), Commands.names());
    }

    @Test
    void everyTopicIsExplainedInEightyColumns() {
        assertTrue(Run.of("explain").out().lines().count() > 1);
        for (String topic : Topics.all().keySet()) {
            Run r = Run.of("explain", topic);
            assertEquals(0, r.code(), topic);
            r.out().lines().forEach(l -> assertTrue(l.length() <= 80, topic + ": " + l));
        }
        assertEquals(64, Run.of("explain", "weather-magic").code());
    }

    /** What a topic calls a factor is one, or the beginning of several, and each topic it sends to is there. */
    @Test
    void whatTopicsNameIsThere() {
        java.util.regex.Pattern factor = java.util.regex.Pattern.compile(
                "(?<![\\w.])(?:cost|course|due|friction|indoor|life|limit|load|plan|road|treatment|wear|wheel)"
                        + "\\.[a-z][a-z.-]*[a-z]");
        java.util.regex.Pattern other = java.util.regex.Pattern.compile("explain ([a-z]+)");
        String table = Run.of("factors").out();
        int named = 0;
        for (String topic : Topics.all().keySet()) {
            String text = Run.of("explain", topic).out();
            for (java.util.regex.Matcher m = factor.matcher(text); m.find(); named++) {
                String key = m.group();
                assertTrue(table.lines().anyMatch(l -> l.startsWith(key)), topic + ": " + key);
            }
            for (java.util.regex.Matcher m = other.matcher(text); m.find(); named++) {
                assertTrue(Topics.all().containsKey(m.group(1)), topic + ": " + m.group());
            }
        }
        assertTrue(named > 20, named + " named");
    }

    @Test
    void everyCommandHasHelpWithAnExampleInEightyColumns() {
        for (String command : commandLine().getSubcommands().keySet()) {
            Run r = Run.of(command, "--help");
            assertEquals(0, r.code(), command);
            assertTrue(r.out().contains("Example"), command + " shows no example:\n" + r.out());
            assertTrue(r.out().contains("chainage " + command), r.out());
            r.out().lines().forEach(l -> assertTrue(l.length() <= 80, command + ": " + l));
        }
    }
}
