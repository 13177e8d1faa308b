package chainage.host;

import java.io.PrintWriter;
import java.time.Clock;
import java.util.Map;

/**
 * What the program meets outside: its two streams, the environment, the clock. A test passes its own.
 *
 * @param out answers
 * @param err progress, warnings, errors
 * @param errIsTerminal true when a person watches {@code err}
 * @param columns how wide {@code out} is; 0 where it is no terminal, so that nothing is cut
 * @param environment variables
 * @param clock the time
 */
public record Terminal(
        PrintWriter out,
        PrintWriter err,
        boolean errIsTerminal,
        int columns,
        Map<String, String> environment,
        Clock clock) {}
