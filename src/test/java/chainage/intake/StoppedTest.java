package chainage.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;

import chainage.cli.Main;
import chainage.cli.Run;
import chainage.command.Asked;
import chainage.command.CommandContext;
import chainage.host.Terminal;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.Instant;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class StoppedTest {
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            0 | nothing was kept of it
            1 | 1 file is kept of it
            7 | 7 files are kept of it
            """)
    void saysWhatIsKept(int files, String said) {
        StringWriter err = new StringWriter();
        Terminal terminal = Run.terminal(Instant.EPOCH, new StringWriter(), err);
        try (Stopped stopped =
                new Stopped(new CommandContext(terminal, Path.of("none"), Asked.NOTHING, false, false, Main.RUNNER))) {
            stopped.kept(files);
            stopped.say();
        }
        assertEquals(
                "chainage: stopped; " + said + ", and nothing is damaged; type the same again to go on",
                err.toString().strip());
    }
}
