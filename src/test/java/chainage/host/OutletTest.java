package chainage.host;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import chainage.cli.Main;
import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;

/** What becomes of an answer that nobody takes; each with the whole program, in a process of its own. */
@DisabledOnOs(OS.WINDOWS)
class OutletTest {
    @TempDir
    Path folder;

    /** The system's own texts come from a catalogue of the C library, where the language is installed. */
    private ProcessBuilder program(String language) {
        ProcessBuilder program = new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path") + place(Main.class) + place(CommandLine.class),
                "chainage.cli.Main",
                "--help");
        program.environment().put("LC_ALL", "C.UTF-8");
        program.environment().put("LANGUAGE", language);
        program.redirectError(folder.resolve("err").toFile());
        return program;
    }

    private static String place(Class<?> of) {
        return File.pathSeparator
                + of.getProtectionDomain().getCodeSource().getLocation().getPath();
    }

    private String said() throws IOException {
        return Files.readString(folder.resolve("err"), StandardCharsets.UTF_8);
    }

    @ParameterizedTest
    @ValueSource(strings = {"en", "de", "fr"})
    void aReaderThatGoesIsNoError(String language) throws IOException, InterruptedException {
        Process process = program(language).start();
        // Before a virtual machine can have written anything.
        process.getInputStream().close();
        assertEquals(0, process.waitFor(), said());
        assertEquals("", said());
    }

    @ParameterizedTest
    @ValueSource(strings = {"en", "de", "fr"})
    void anAnswerOnAFullDiskIsLost(String language) throws IOException, InterruptedException {
        File full = new File("/dev/full");
        assumeTrue(full.exists());
        Process process = program(language).redirectOutput(full).start();
        assertEquals(74, process.waitFor());
        assertTrue(said().startsWith("chainage: the answer could not be written: "), said());
    }

    /** Or the tests above are of one language. */
    @Test
    void germanIsAnotherLanguage() throws IOException, InterruptedException {
        assumeTrue(Files.exists(Path.of("/dev/full")) && catalogue("de"));
        Process process = program("de").redirectOutput(new File("/dev/full")).start();
        assertEquals(74, process.waitFor());
        assertFalse(said().contains("No space left on device"), said());
    }

    private static boolean catalogue(String language) {
        return Files.exists(Path.of("/usr/share/locale", language, "LC_MESSAGES/libc.mo"));
    }
}
