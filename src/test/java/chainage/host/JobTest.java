package chainage.host;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.w3c.dom.NodeList;

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
        return new Job(command, LocalTime.of(3, 30), javaHome);
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
        assertEquals(expected, read);
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
