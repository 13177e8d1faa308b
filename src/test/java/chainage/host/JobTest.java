package chainage.host;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.transform.stream.StreamSource;
import javax.xml.validation.SchemaFactory;
import javax.xml.validation.Validator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

class JobTest {
    /** Names that a rider's folders may have, and that each scheduler reads in a way of its own. */
    private static final List<String> HARD = List.of(
            "plain",
            "two words",
            "it's",
            "say \"so\"",
            "100%h %% %n",
            "$HOME ${HOME} $$",
            "back\\slash\\n",
            "semi;colon & pipe | > <",
            "#hash",
            "山道 äöü",
            "-leading",
            "`id` $(id)");

    @TempDir
    Path folder;

    private static Job job(List<String> command, String javaHome) {
        return new Job(command, LocalTime.of(3, 30), javaHome, Path.of("/var/a & b"));
    }

    /** A shell script that writes each of its arguments on a line of its own. */
    private Path printer(Path said) throws IOException {
        Path script = folder.resolve("print it.sh");
        Files.writeString(script, "#!/bin/sh\nfor a in \"$@\"; do printf '%s\\n' \"$a\"; done > '" + said + "'\n");
        assertTrue(script.toFile().setExecutable(true));
        return script;
    }

    /** Crontab(5): a backslash before a per cent sign is taken away, the rest goes to sh. */
    @Test
    void theShellHandsEveryWordOnAsItIs() throws IOException, InterruptedException {
        Path said = folder.resolve("said");
        List<String> command = new ArrayList<>();
        command.add(printer(said).toString());
        command.addAll(HARD);
        String line = job(command, "/opt/java 17").cron();
        assertTrue(line.startsWith("30 3 * * * "), line);
        assertEquals(-1, line.replace("\\%", "").indexOf('%'), "a bare per cent sign ends the command");
        String sh = line.substring("30 3 * * * ".length()).replace("\\%", "%");
        assertEquals(0, new ProcessBuilder("/bin/sh", "-c", sh).start().waitFor());
        assertEquals(HARD, Files.readAllLines(said));
    }

    /** By systemd's own checker of unit files, where there is one. */
    @Test
    void systemdFindsNothingToSay() throws IOException, InterruptedException {
        assumeTrue(Files.isExecutable(Path.of("/usr/bin/systemd-analyze")), "no systemd-analyze here");
        List<String> command = new ArrayList<>();
        command.add(printer(folder.resolve("said")).toString());
        command.addAll(HARD);
        var units = job(command, "/opt/java 17").systemd();
        assertEquals(List.of(), complaints(units));
        // The same checker does find something to say when a unit is wrong.
        var wrong = new TreeMap<>(units);
        wrong.replaceAll((name, text) -> text.replace("OnCalendar=", "OnCalendar=no day at "));
        assertNotEquals(units, wrong);
        assertNotEquals(List.of(), complaints(wrong));
    }

    /** What systemd's checker says of our units; complaints about other units of the machine are not about ours. */
    private List<String> complaints(Map<String, String> units) throws IOException, InterruptedException {
        List<String> analyze = new ArrayList<>(List.of("/usr/bin/systemd-analyze", "verify", "--user"));
        for (var unit : units.entrySet()) {
            Path file = folder.resolve(unit.getKey());
            Files.writeString(file, unit.getValue());
            analyze.add(file.toString());
        }
        ProcessBuilder builder = new ProcessBuilder(analyze).redirectErrorStream(true);
        builder.environment().put("XDG_RUNTIME_DIR", folder.toString());
        Process process = builder.start();
        String answer = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        process.waitFor();
        return answer.lines().filter(l -> l.contains("chainage-nightly")).toList();
    }

    @Test
    void aPropertyListHoldsEveryWordAsItIs() throws Exception {
        String list = job(HARD, "/opt/a & b").launchd();
        NodeList strings = DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new ByteArrayInputStream(list.getBytes(StandardCharsets.UTF_8)))
                .getElementsByTagName("string");
        List<String> read = new ArrayList<>();
        for (int i = 0; i < strings.getLength(); i++) {
            read.add(strings.item(i).getTextContent());
        }
        List<String> expected = new ArrayList<>();
        expected.add("chainage.nightly");
        expected.addAll(HARD);
        expected.add("/opt/a & b");
        expected.addAll(List.of("/var/a & b", "/var/a & b"));
        assertEquals(expected, read);
        // launchd.plist(5): "This value is interpreted as a decimal integer"; 077 closes files to all but their owner.
        assertTrue(list.contains("<key>Umask</key><integer>63</integer>"), list);
    }

    /**
     * Held against the parts of the published schema that are in use (task.xsd), as far as can be done without Windows. The
     * same check does refuse an element too many, in the wrong order, or with a value that cannot be.
     */
    @Test
    void aTaskForWindowsIsAsItsSchemaSays() throws Exception {
        Validator validator = SchemaFactory.newInstance(XMLConstants.W3C_XML_SCHEMA_NS_URI)
                .newSchema(new StreamSource(JobTest.class.getResourceAsStream("/chainage/host/task.xsd")))
                .newValidator();
        String task = job(HARD, "").task();
        validator.validate(new StreamSource(new StringReader(task)));
        for (String[] wrong : List.of(
                new String[] {"<DaysInterval>1<", "<DaysInterval>0<"},
                new String[] {"<StartBoundary>", "<Daily/><StartBoundary>"},
                new String[] {"T03:30:00", "T3:30"},
                new String[] {"IgnoreNew", "ignore"},
                new String[] {"Context=\"rider\"", "Context=\"nobody\""})) {
            String bent = task.replace(wrong[0], wrong[1]);
            assertNotEquals(task, bent);
            assertThrows(SAXException.class, () -> validator.validate(new StreamSource(new StringReader(bent))));
        }
    }

    /** By the published rules: [MS-TSCH] 2.5.9.1 for the scheduler, then those of C programs for their arguments. */
    @Test
    void aProgramOnWindowsGetsEveryWordAsItIs() throws Exception {
        List<String> command = new ArrayList<>(List.of("java.exe"));
        command.addAll(HARD);
        command.addAll(List.of("ends with \\", "a\\\\\"b", ""));
        String arguments = DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new InputSource(new StringReader(job(command, "").task())))
                .getElementsByTagName("Arguments")
                .item(0)
                .getTextContent();
        assertFalse(arguments.replace("$$", "").contains("$"), arguments);
        assertEquals(command.subList(1, command.size()), windowsWords(arguments.replace("$$", "$")));
    }

    /**
     * "Parsing C command-line arguments" (the C run-time's documentation): 2n backslashes and a quote are n backslashes and
     * a delimiter, 2n + 1 are n backslashes and a quote, other backslashes are themselves.
     */
    private static List<String> windowsWords(String line) {
        List<String> words = new ArrayList<>();
        StringBuilder word = new StringBuilder();
        boolean quoted = false;
        boolean any = false;
        for (int i = 0; i < line.length(); ) {
            int slashes = 0;
            while (i + slashes < line.length() && line.charAt(i + slashes) == '\\') {
                slashes++;
            }
            boolean quote = i + slashes < line.length() && line.charAt(i + slashes) == '"';
            if (quote) {
                word.append("\\".repeat(slashes / 2));
                if (slashes % 2 == 1) {
                    word.append('"');
                } else {
                    quoted = !quoted;
                    any = true;
                }
                i += slashes + 1;
            } else if (slashes > 0) {
                word.append("\\".repeat(slashes));
                i += slashes;
            } else if (line.charAt(i) == ' ' && !quoted) {
                if (any || word.length() > 0) {
                    words.add(word.toString());
                }
                word.setLength(0);
                any = false;
                i++;
            } else {
                word.append(line.charAt(i++));
            }
        }
        if (any || word.length() > 0) {
            words.add(word.toString());
        }
        return words;
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "0 5 * * * backup\n", "# mine\n\n0 5 * * * backup", "MAILTO=me\n@daily x\n"})
    void otherLinesOfACrontabStayAsTheyAre(String before) {
        Job job = job(List.of("/bin/a"), "");
        String with = job.crontabWith(before);
        assertTrue(with.endsWith(job.cron() + "\n"), with);
        assertEquals(with, job.crontabWith(with), "twice is once");
        String kept = before.isEmpty() || before.endsWith("\n") ? before : before + "\n";
        assertEquals(kept, Job.crontabWithout(with));
    }

    @ParameterizedTest
    @ValueSource(strings = {"a\nb", "a\rb", "a\u0000b"})
    void aLineBreakCannotSmuggleALineIn(String word) {
        assertThrows(IllegalArgumentException.class, () -> job(List.of("/bin/a", word), ""));
    }
}
