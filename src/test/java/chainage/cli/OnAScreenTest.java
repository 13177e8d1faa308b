package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.host.Terminal;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Map;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What is for other programs fills no person's screen unasked. */
class OnAScreenTest {
    @TempDir
    Path folder;

    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();

    private int run(int columns, boolean person, String... words) {
        String[] args = new String[words.length + 2];
        args[0] = "--ledger";
        args[1] = folder.resolve("ledger.sqlite").toString();
        System.arraycopy(words, 0, args, 2, words.length);
        out.getBuffer().setLength(0);
        err.getBuffer().setLength(0);
        return Main.run(
                new Terminal(new PrintWriter(out), new PrintWriter(err), person, columns, Map.of(), Clock.systemUTC()),
                args);
    }

    @ParameterizedTest
    @ValueSource(strings = {"export", "calendar"})
    void aStreamFillsNoScreen(String command) {
        assertEquals(0, run(80, true, "bike", "add", "Dunlin"));
        assertEquals(64, run(80, true, command));
        assertEquals("", out.toString());
        assertTrue(err.toString().contains("is not for a screen; name a file with -o"), err.toString());
        assertEquals(0, run(80, true, command, "-o", "-"));
        String asked = out.toString();
        assertTrue(asked.length() > 50, asked);
        // Piped, or its errors alone on the screen.
        assertEquals(0, run(0, true, command));
        assertTrue(out.toString().length() > 50);
        assertEquals(
                0, run(80, true, command, "--json", "-o", folder.resolve("x").toString()), err.toString());
        assertTrue(out.toString().startsWith("{"), out.toString());
    }
}
