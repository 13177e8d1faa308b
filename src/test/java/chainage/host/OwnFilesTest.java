package chainage.host;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the program writes of itself below a prefix it finds again, and nothing else. */
class OwnFilesTest {
    private static final String MAN = "share/man/man1/";
    private static final Map<String, String> NEW =
            Map.of(MAN + "chainage.1", page("new"), "share/zsh/site-functions/_chainage", page("completion"));

    @TempDir
    Path folder;

    private Path prefix = Path.of("");
    private Path program = Path.of("");

    private static String page(String words) {
        return "# " + OwnFiles.MARK + "\n" + words + "\n";
    }

    @BeforeEach
    void program() throws IOException {
        prefix = folder.resolve("a prefix");
        program = Files.writeString(folder.resolve("program"), "#!/bin/sh\nexec java -Dchainage.program=\"$0\"\n");
    }

    private List<String> there() throws IOException {
        try (Stream<Path> all = Files.walk(prefix)) {
            return all.filter(Files::isRegularFile)
                    .map(f -> prefix.relativize(f).toString())
                    .sorted()
                    .toList();
        }
    }

    @Test
    void allAreWrittenForEveryReaderAndTakenAwayWithTheirFolders() throws IOException {
        OwnFiles files = new OwnFiles(prefix, NEW);
        files.write(program);
        assertEquals(
                List.of("bin/chainage", "share/man/man1/chainage.1", "share/zsh/site-functions/_chainage"), there());
        assertEquals(
                "rwxr-xr-x",
                PosixFilePermissions.toString(Files.getPosixFilePermissions(prefix.resolve("bin/chainage"))));
        files.remove();
        assertFalse(Files.exists(prefix.resolve("bin")) || Files.exists(prefix.resolve("share")));
    }

    @Test
    void anUpgradeLeavesNoPageOfACommandThatIsGone() throws IOException {
        new OwnFiles(prefix, Map.of(MAN + "chainage.1", page("old"), MAN + "chainage-gone.1", page("old")))
                .write(program);
        new OwnFiles(prefix, NEW).write(program);
        assertFalse(there().contains(MAN + "chainage-gone.1"));
        assertEquals(page("new"), Files.readString(prefix.resolve(MAN + "chainage.1")));
    }

    @Test
    void theNextVersionTakesAwayWhatTheLastOneWrote() throws IOException {
        new OwnFiles(prefix, Map.of(MAN + "chainage-gone.1", page("old"))).write(program);
        new OwnFiles(prefix, NEW).remove();
        assertEquals(List.of(), there());
    }

    @Test
    void anothersFileIsNamedBeforeAndLeftAfter() throws IOException {
        Path others = prefix.resolve(MAN + "chainage.1");
        Files.createDirectories(prefix.resolve(MAN));
        Files.writeString(others, "a page of somebody else\n");
        Path notes = Files.writeString(prefix.resolve(MAN + "chainage-notes.1"), "my own notes\n");
        OwnFiles files = new OwnFiles(prefix, NEW);
        assertEquals(Optional.of(others), files.foreign());
        files.remove();
        assertTrue(Files.exists(others) && Files.exists(notes));
    }
}
