package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/** When an archive is made, and when start.sh uses it. A Java of our own prints what it is started with. */
@DisabledOnOs(OS.WINDOWS)
class QuickStartTest {
    private static final Instant BUILT = Instant.parse("2026-05-01T10:00:00Z");
    private static final Instant NOW = Instant.parse("2026-05-03T10:00:00Z");

    @TempDir
    Path folder;

    private Path program;
    private Path cache;
    private Path kept;

    @BeforeEach
    void aProgramAndAJava() throws IOException {
        Path bin = Files.createDirectories(folder.resolve("java/bin"));
        Path java = Files.writeString(bin.resolve("java"), "#!/bin/sh\nprintf '%s\\n' \"$@\"\n");
        assertTrue(java.toFile().setExecutable(true));
        program = install(folder.resolve("a place/chainage"));
        cache = folder.resolve("a cache");
        kept = Path.of(cache + "/chainage/start" + program);
    }

    private static Path install(Path program) throws IOException {
        Files.createDirectories(Objects.requireNonNull(program.getParent()));
        Files.copy(Path.of("src/main/sh/start.sh"), program, StandardCopyOption.REPLACE_EXISTING);
        dated(program, BUILT);
        return program;
    }

    private static void dated(Path file, Instant at) throws IOException {
        Files.setLastModifiedTime(file, FileTime.from(at));
    }

    private void keep(String name, String content, Instant at) throws IOException {
        Files.createDirectories(kept);
        dated(Files.writeString(kept.resolve(name), content), at);
    }

    private static String thisJava() {
        return System.getProperty("java.home") + " " + Runtime.version() + " " + System.getProperty("java.vm.name");
    }

    private boolean wanted() throws IOException {
        return QuickStart.isWanted(kept, program, NOW);
    }

    @Test
    void isMadeOnceForAProgramAndAJava() throws IOException {
        assertTrue(wanted());
        keep("classes.jsa", "", BUILT.plusSeconds(60));
        keep("java", thisJava(), BUILT.plusSeconds(60));
        assertFalse(wanted());
        keep("java", "another Java", BUILT.plusSeconds(60));
        assertTrue(wanted());
        keep("java", thisJava(), BUILT.plusSeconds(60));
        dated(program, BUILT.plusSeconds(120));
        assertTrue(wanted());
    }

    @Test
    void isNotTriedAgainAndAgain() throws IOException {
        keep("tried", "", NOW.minus(Duration.ofHours(23)));
        assertFalse(wanted());
        keep("tried", "", NOW.minus(Duration.ofHours(25)));
        assertTrue(wanted());
    }

    @Test
    void aNewProgramIsTriedAtOnce() throws IOException {
        keep("tried", "", NOW.minus(Duration.ofHours(2)));
        dated(program, NOW.minus(Duration.ofHours(1)));
        assertTrue(wanted());
    }

    @Test
    void aProgramFromTheFutureWouldNeverBeOlderThanItsArchive() throws IOException {
        dated(program, NOW.plusSeconds(1));
        assertFalse(wanted());
    }

    @Test
    void startTakesNoArchiveWhereThereIsNone() throws Exception {
        List<String> said = start(program, cache.toString());
        assertFalse(said.stream().anyMatch(a -> a.contains("SharedArchiveFile")), said.toString());
        assertTrue(said.contains("-Dchainage.start=" + kept), said.toString());
        assertEquals(List.of("-jar", program.toString(), "due", "a b"), said.subList(said.size() - 4, said.size()));
    }

    @Test
    void startTakesANewerOneOnly() throws Exception {
        keep("classes.jsa", "", BUILT.plusSeconds(60));
        List<String> said = start(program, cache.toString());
        assertTrue(said.contains("-XX:SharedArchiveFile=" + kept + "/classes.jsa"), said.toString());
        assertTrue(said.contains("-Dorg.sqlite.lib.path=" + kept), said.toString());
        dated(program, BUILT.plusSeconds(120));
        assertFalse(start(program, cache.toString()).contains("-XX:SharedArchiveFile=" + kept + "/classes.jsa"));
    }

    /** A step up would leave the cache, a colon would be two archives, and a folder named from here is no cache. */
    @Test
    void startPutsNothingByUnderOddNames() throws Exception {
        Path odd = install(folder.resolve("a:b/chainage"));
        Path up = folder.resolve("a place/../a place/chainage");
        for (List<String> said : List.of(
                start(odd, cache.toString()),
                start(up, cache.toString()),
                start(program, "cache"),
                start(program, ""))) {
            assertFalse(said.stream().anyMatch(a -> a.startsWith("-Dchainage.start=")), said.toString());
            assertEquals("due", said.get(said.size() - 2));
        }
    }

    private List<String> start(Path program, String cacheHome) throws IOException, InterruptedException {
        ProcessBuilder builder = new ProcessBuilder("sh", program.toString(), "due", "a b");
        builder.environment().remove("HOME");
        builder.environment().put("JAVA_HOME", folder.resolve("java").toString());
        builder.environment().put("XDG_CACHE_HOME", cacheHome);
        Process process = builder.redirectError(ProcessBuilder.Redirect.INHERIT).start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertEquals(0, process.waitFor());
        return said.lines().toList();
    }
}
