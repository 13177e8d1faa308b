package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.host.Terminal;
import chainage.render.Width;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.time.Clock;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The help fits the terminal, and tells each thing once. */
class HelpTest {
    private static String said(int columns, String... args) {
        StringWriter out = new StringWriter();
        PrintWriter to = new PrintWriter(out);
        assertEquals(0, Main.run(new Terminal(to, to, false, columns, Map.of(), Clock.systemUTC()), args));
        return out.toString();
    }

    @Test
    void whatThereIsFitsOnAScreen() {
        String all = said(80);
        assertTrue(all.lines().count() <= 52, all);
        Commands.names().forEach(c -> assertTrue(all.contains("\n  " + c + " "), c));
        assertTrue(said(80, "--help").contains(all.substring(all.indexOf("Every day"), all.indexOf("More on each"))));
    }

    /** A line is only longer where a single word or an example to copy is. */
    @ParameterizedTest
    @ValueSource(ints = {60, 80, 132, 200})
    void everyHelpFitsTheTerminal(int columns) {
        said(columns).lines().forEach(l -> assertTrue(Width.of(l) <= columns, l));
        for (String command : Commands.names()) {
            String help = said(columns, command, "--help");
            help.lines()
                    .filter(l -> !l.startsWith("  chainage "))
                    .forEach(l -> assertTrue(Width.of(l) <= columns, command + ": " + l));
            assertEquals(words(said(200, command, "--help")), words(help), command);
        }
    }

    /** A word that is broken would be two. */
    private static List<String> words(String help) {
        // How the synopsis is wrapped, and names of options, are their own matter.
        return Arrays.asList(help.substring(help.indexOf("\n\n")).strip().split("\\s+"));
    }

    @Test
    void optionsOfEveryCommandAreToldOnce() {
        assertFalse(said(80, "due", "--help").contains("--zone"));
        assertFalse(said(80, "bike", "add", "--help").contains("--zone"));
        assertTrue(said(80, "--help").contains("--zone"));
        assertTrue(said(80, "due", "--help").contains("chainage --help"));
    }
}
