package chainage.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PlainTextTest {
    /** Held against a real shell: what it hands on is the name, whatever the name holds. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "Amber",
                "Kettle Block",
                "Länge 鏈",
                "$(touch here)",
                "`touch here`",
                "it's",
                "a \"b\" c",
                "back\\slash",
                "$HOME",
                "semi;colon",
                "a && b",
                "star * ?",
                "it's $5, \"net\"",
                "~/exports",
                ""
            })
    void aTypedNameIsTheNameToAShell(String name) throws IOException, InterruptedException {
        assumeTrue(Files.isExecutable(Path.of("/bin/sh")), "needs a shell");
        Process shell = new ProcessBuilder("/bin/sh", "-c", "printf %s " + PlainText.typed(name)).start();
        assertEquals(name, new String(shell.getInputStream().readAllBytes(), StandardCharsets.UTF_8));
        assertEquals(0, shell.waitFor());
    }
}
