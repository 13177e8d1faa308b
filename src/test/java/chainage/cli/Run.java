package chainage.cli;

import chainage.host.Terminal;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Map;

/**
 * One command line run to its end.
 *
 * @param code exit code
 * @param out what it answered
 * @param err what it said beside that
 */
public record Run(int code, String out, String err) {
    /** Runs it in UTC at noon of 2026-11-01, in eighty columns. */
    public static Run of(String... args) {
        return at(Instant.parse("2026-11-01T12:00:00Z"), args);
    }

    /** Eighty columns of plain text in UTC at an instant. */
    public static Terminal terminal(Instant now, StringWriter out, StringWriter err) {
        return terminal(Map.of(), now, out, err);
    }

    private static Terminal terminal(Map<String, String> environment, Instant now, StringWriter out, StringWriter err) {
        return new Terminal(
                new PrintWriter(out), new PrintWriter(err), false, 80, environment, Clock.fixed(now, ZoneOffset.UTC));
    }

    /** Runs it in UTC at an instant, in eighty columns. */
    public static Run at(Instant now, String... args) {
        return in(Map.of(), now, args);
    }

    /** The same in an environment. */
    static Run in(Map<String, String> environment, Instant now, String... args) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        Terminal terminal = terminal(environment, now, out, err);
        int code = Main.run(terminal, args);
        return new Run(code, out.toString(), err.toString());
    }
}
