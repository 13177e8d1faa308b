package chainage.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.cli.Main;
import chainage.host.Terminal;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Colour stands out and says nothing of its own. Sequences are those of ECMA-48, 8.3.117; NO_COLOR is the convention of
 * no-color.org, by which an option of the program goes before it.
 */
class ColourTest {
    private static final String FAINT = "\u001b[2m";
    private static final String LOUD = "\u001b[1;31m";
    private static final String PLAIN = "\u001b[0m";
    private static final Map<String, String> XTERM = Map.of("TERM", "xterm-256color");

    @TempDir
    Path folder;

    @BeforeEach
    void aChainThatIsDue() {
        run(0, Map.of(), "bike", "add", "Dunlin");
        run(0, Map.of(), "chain", "add", "Amber", "--stripped");
        run(0, Map.of(), "install", "Amber", "Dunlin", "--on", "2026-04-01");
    }

    private String run(int columns, Map<String, String> environment, String... words) {
        StringWriter said = new StringWriter();
        PrintWriter to = new PrintWriter(said);
        List<String> args = new ArrayList<>(
                List.of("--ledger", folder.resolve("ledger.sqlite").toString()));
        args.addAll(List.of(words));
        Clock clock = Clock.fixed(Instant.parse("2026-06-01T12:00:00Z"), ZoneOffset.UTC);
        Main.run(new Terminal(to, to, false, columns, environment, clock), args.toArray(String[]::new));
        return said.toString();
    }

    private static String withoutEscapes(String text) {
        return text.replaceAll("\u001b\\[[0-9;]*m", "");
    }

    @Test
    void whatIsDueStandsOutAndHeadingsStandBack() {
        String due = run(80, XTERM, "due");
        assertTrue(due.startsWith(LOUD + "Nearest its limit: Amber, on Dunlin."), due);
        assertTrue(due.contains(FAINT + "CHAIN" + PLAIN), due);
        assertTrue(due.contains(LOUD + "now" + PLAIN), due);
        due.lines()
                .filter(l -> l.contains("\u001b"))
                .forEach(l -> assertEquals(l.lastIndexOf("\u001b["), l.lastIndexOf(PLAIN), l));
    }

    @ParameterizedTest
    @CsvSource({"60", "80", "132"})
    void itTakesNoWidthAndSaysNothing(int columns) {
        for (String command : List.of("due", "chain", "factors", "--help", "import --help")) {
            String[] words = command.split(" ");
            assertEquals(run(columns, Map.of(), words), withoutEscapes(run(columns, XTERM, words)), command);
        }
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            # columns | TERM   | NO_COLOR | option | colour
            80        | xterm  |          |        | true
            80        | xterm  | ''       |        | true
            80        | xterm  | 1        |        | false
            80        | dumb   |          |        | false
            80        |        |          |        | false
            0         | xterm  |          |        | false
            0         | xterm  |          | always | true
            80        | dumb   | 1        | always | true
            80        | xterm  |          | never  | false
            80        | xterm  |          | auto   | true
            80        | xterm  | 1        | auto   | false
            """)
    void whereItIs(int columns, String term, String noColor, String option, boolean colour) {
        Map<String, String> environment = new HashMap<>();
        if (term != null) {
            environment.put("TERM", term);
        }
        if (noColor != null) {
            environment.put("NO_COLOR", noColor);
        }
        String[] asked = option == null ? new String[] {"due"} : new String[] {"due", "--color", option};
        assertEquals(colour, run(columns, environment, asked).contains("\u001b"));
        String[] help = option == null ? new String[] {"--help"} : new String[] {"--help", "--color=" + option};
        assertEquals(colour, run(columns, environment, help).contains("\u001b"));
    }

    @Test
    void scriptsGetNone() {
        assertFalse(run(80, XTERM, "due", "--json", "--color", "always").contains("\u001b"));
        assertFalse(run(80, XTERM, "due", "--csv", "--color", "always").contains("\u001b"));
    }

    @Test
    void namesStillObeyNoTerminal() {
        run(0, Map.of(), "chain", "add", "\u001b[31mred");
        assertFalse(withoutEscapes(run(80, XTERM, "chain")).contains("\u001b"));
        assertFalse(run(80, XTERM, "chain").contains("\u001b[31mred"));
    }
}
