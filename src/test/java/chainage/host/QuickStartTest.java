package chainage.host;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import chainage.store.file.Seal;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/** When an archive is made, and when start.sh uses it. A Java of our own prints what it is started with. */
@DisabledOnOs(OS.WINDOWS)
class QuickStartTest {
    private static final Instant BUILT = Instant.parse("2026-05-01T10:00:00Z");
    /** A user who owns nothing here: the one of most systems for that. */
    private static final int NOBODY = 65534;

    private static final Instant NOW = Instant.parse("2026-05-03T10:00:00Z");

    private static final Set<PosixFilePermission> OURS = PosixFilePermissions.fromString("rwx------");

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
        Files.createDirectories(kept, PosixFilePermissions.asFileAttribute(OURS));
        dated(Files.writeString(kept.resolve(name), content), at);
    }

    private static String thisJava() {
        return System.getProperty("java.home") + " " + Runtime.version() + " " + System.getProperty("java.vm.name");
    }

    private boolean wanted() throws IOException {
        return QuickStart.isWanted(kept, program, NOW);
    }

    /** All that is put by, as it is after it was made. */
    private void keepAll() throws IOException {
        keep("classes.jsa", "an archive", BUILT.plusSeconds(60));
        keep("libsqlitejdbc.so", "a library", BUILT.plusSeconds(60));
        seal(thisJava());
        keep("tried", "", BUILT.plusSeconds(30));
    }

    private void seal(String by) throws IOException {
        Seal.put(kept, by, List.of("libsqlitejdbc.so", "classes.jsa"));
        dated(kept.resolve("seal"), BUILT.plusSeconds(60));
    }

    @Test
    void isMadeOnceForAProgramAndAJava() throws IOException {
        assertTrue(wanted());
        keepAll();
        assertFalse(wanted());
        seal("another Java");
        assertTrue(wanted());
        seal(thisJava());
        dated(program, BUILT.plusSeconds(120));
        assertTrue(wanted());
    }

    /** Something does it harm. */
    private interface Harm {
        void to(Path file) throws IOException;
    }

    @Test
    void isMadeAtOnceWhereWhatWasThereIsDamaged() throws IOException {
        Map<String, Harm> harms = new LinkedHashMap<>();
        harms.put("seal", seal -> Files.writeString(seal, "half a se"));
        harms.put("classes.jsa", Files::delete);
        harms.put("libsqlitejdbc.so", QuickStartTest::link);
        harms.put("", all -> Files.setPosixFilePermissions(all, PosixFilePermissions.fromString("rwxr-xr-x")));
        for (Map.Entry<String, Harm> harm : harms.entrySet()) {
            keepAll();
            keep("tried", "", NOW.minus(Duration.ofHours(1)));
            harm.getValue().to(kept.resolve(harm.getKey()));
            assertTrue(wanted(), harm.getKey());
            Path harmed = kept.resolve(harm.getKey());
            if (Files.isSymbolicLink(harmed)) {
                Files.delete(harmed);
            }
            Files.setPosixFilePermissions(kept, OURS);
        }
    }

    /** The same content, by way of a link. */
    private static void link(Path file) throws IOException {
        Path other = file.resolveSibling("other");
        Files.move(file, other, StandardCopyOption.REPLACE_EXISTING);
        Files.createSymbolicLink(file, other);
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
        keepAll();
        assertTrue(isUsed());
        dated(program, BUILT.plusSeconds(120));
        assertFalse(isUsed());
    }

    private boolean isUsed() throws Exception {
        return isUsed(List.of());
    }

    private boolean isUsed(List<String> before) throws Exception {
        List<String> said = start(before, program, cache.toString());
        boolean archive = said.contains("-XX:SharedArchiveFile=" + kept + "/classes.jsa");
        assertEquals(archive, said.contains("-Dchainage.start.used=true"), said.toString());
        return archive;
    }

    /** Nothing is used, and nothing would be made. */
    private void assertLeftAlone(String why) throws Exception {
        List<String> said = start(program, cache.toString());
        assertFalse(said.stream().anyMatch(a -> a.contains(kept.toString())), why + ": " + said);
        assertEquals("due", said.get(said.size() - 2));
    }

    /** The folders from the cache down to what is kept. */
    private List<Path> levels() {
        List<Path> levels = new ArrayList<>();
        for (Path f = kept; f != null && f.startsWith(cache); f = f.getParent()) {
            levels.add(f);
        }
        return levels;
    }

    @Test
    void startLeavesAFolderAloneThatOthersWriteIn() throws Exception {
        keepAll();
        for (Path level : levels()) {
            for (String open : List.of("rwxrwx---", "rwxr-x-w-")) {
                Files.setPosixFilePermissions(level, PosixFilePermissions.fromString(open));
                assertLeftAlone(level + " " + open);
            }
            Files.setPosixFilePermissions(level, OURS);
        }
        assertTrue(isUsed());
    }

    @Test
    void startMakesNothingInAFolderThatOthersWriteIn() throws Exception {
        Files.createDirectories(cache);
        Files.setPosixFilePermissions(cache, PosixFilePermissions.fromString("rwxrwxr-x"));
        assertLeftAlone("an open cache");
    }

    /** The folder itself is ours alone; what others could read they could have open, too. */
    @Test
    void startUsesOnlyWhatNoOneElseReaches() throws Exception {
        keepAll();
        Files.setPosixFilePermissions(kept, PosixFilePermissions.fromString("rwxr-xr-x"));
        assertFalse(isUsed());
    }

    @Test
    void startFollowsOurOwnLinksToClosedFoldersOnly() throws Exception {
        keepAll();
        Path other = folder.resolve("another disk");
        for (Path level : levels()) {
            Files.move(level, other);
            Files.createSymbolicLink(level, other);
            assertTrue(isUsed(), level.toString());
            Files.setPosixFilePermissions(other, PosixFilePermissions.fromString("rwxrwxrwx"));
            assertLeftAlone(level.toString());
            Files.setPosixFilePermissions(other, OURS);
            Files.delete(level);
            Files.move(other, level);
        }
    }

    @Test
    void startUsesNoFileThatIsALink() throws Exception {
        for (String name : List.of("classes.jsa", "libsqlitejdbc.so", "seal")) {
            keepAll();
            link(kept.resolve(name));
            assertFalse(isUsed(), name);
            Files.delete(kept.resolve(name));
        }
    }

    /** As root with another user's home; and a file of another user in a folder of ours. */
    @Test
    void startLeavesAloneWhatIsAnothers() throws Exception {
        assumeTrue("root".equals(System.getProperty("user.name")), "only root gives things away");
        keepAll();
        for (Path level : levels()) {
            Files.setAttribute(level, "unix:uid", NOBODY);
            assertLeftAlone("owned by another: " + level);
            Files.setAttribute(level, "unix:uid", 0);
            Path other = folder.resolve("prepared");
            Files.move(level, other);
            Files.createSymbolicLink(level, other);
            Files.setAttribute(level, "unix:uid", NOBODY, LinkOption.NOFOLLOW_LINKS);
            assertLeftAlone("link of another: " + level);
            Files.delete(level);
            Files.move(other, level);
        }
        for (String name : List.of("classes.jsa", "libsqlitejdbc.so", "seal")) {
            Files.setAttribute(kept.resolve(name), "unix:uid", NOBODY);
            assertFalse(isUsed(), name);
            Files.setAttribute(kept.resolve(name), "unix:uid", 0);
        }
        assertTrue(isUsed());
    }

    /** The other way round: a user without privileges, in a cache of root's and in one of a third user. */
    @Test
    void startAsAnotherUserUsesNothingOfRoots() throws Exception {
        assumeTrue("root".equals(System.getProperty("user.name")), "only root becomes another");
        assumeTrue(Files.isExecutable(Path.of("/usr/bin/setpriv")), "no setpriv");
        keepAll();
        List<String> nobody = List.of("setpriv", "--reuid=" + NOBODY, "--regid=" + NOBODY, "--clear-groups", "--");
        Set<PosixFilePermission> open = PosixFilePermissions.fromString("rwxr-xr-x");
        for (Path f = kept; f.startsWith(folder); f = Objects.requireNonNull(f.getParent())) {
            Files.setPosixFilePermissions(f, open);
        }
        Files.setPosixFilePermissions(Objects.requireNonNull(program.getParent()), open);
        Files.setPosixFilePermissions(folder.resolve("java/bin/java"), open);
        assertFalse(isUsed(nobody));
        for (Path level : levels()) {
            Files.setAttribute(level, "unix:uid", NOBODY);
        }
        for (String name : List.of("classes.jsa", "libsqlitejdbc.so", "seal")) {
            Files.setAttribute(kept.resolve(name), "unix:uid", NOBODY);
        }
        Files.setPosixFilePermissions(kept, OURS);
        assertTrue(isUsed(nobody));
        Files.setAttribute(cache, "unix:uid", NOBODY - 1);
        assertFalse(isUsed(nobody));
    }

    @Test
    void startSaysWhereJavaIsMissingAndWhenItTakesOptionsFromElsewhere() throws Exception {
        ProcessBuilder builder = new ProcessBuilder("sh", program.toString(), "due");
        builder.environment().put("JAVA_HOME", folder.resolve("no java").toString());
        Process none = builder.start();
        String said = new String(none.getErrorStream().readAllBytes(), StandardCharsets.UTF_8);
        assertEquals(127, none.waitFor());
        assertTrue(said.startsWith("chainage: there is no Java at \"" + folder.resolve("no java/bin/java")), said);
        builder.environment().put("JAVA_HOME", folder.resolve("java").toString());
        builder.environment().put("JAVA_TOOL_OPTIONS", "-Xmx1g");
        Process other = builder.start();
        said = new String(other.getErrorStream().readAllBytes(), StandardCharsets.UTF_8);
        assertEquals(0, other.waitFor());
        assertTrue(said.startsWith("chainage: Java takes options from JAVA_TOOL_OPTIONS too"), said);
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
        return start(List.of(), program, cacheHome);
    }

    private List<String> start(List<String> before, Path program, String cacheHome)
            throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(before);
        command.addAll(List.of("sh", program.toString(), "due", "a b"));
        ProcessBuilder builder = new ProcessBuilder(command);
        builder.environment().remove("HOME");
        builder.environment().put("JAVA_HOME", folder.resolve("java").toString());
        builder.environment().put("XDG_CACHE_HOME", cacheHome);
        Process process = builder.redirectError(ProcessBuilder.Redirect.INHERIT).start();
        String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertEquals(0, process.waitFor());
        return said.lines().toList();
    }
}
