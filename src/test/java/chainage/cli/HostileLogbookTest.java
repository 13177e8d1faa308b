package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import chainage.bench.RideMaker;
import chainage.typed.ExitCode;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.zip.GZIPOutputStream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Files that say they are logbooks, through the importer, in a heap of 64 MB: read, or refused in one line. */
@Timeout(value = 10, unit = TimeUnit.MINUTES)
class HostileLogbookTest {
    private static final String FIRST = "chainage logbook\n";
    private static final String BIKE = "2026-03-01 bike add ";
    private static final int LARGE = 100_000_000;

    @TempDir
    Path dir = Path.of("");

    @Test
    void filesThatAreNoneAreRefusedInOneLineEach() throws IOException, InterruptedException {
        Path folder = Files.createDirectory(dir.resolve("exports"));
        large(folder.resolve("lines.txt"), "2026-03-01 treat Amber hot-wax\n");
        large(folder.resolve("one.txt"), "x");
        try (OutputStream out = new GZIPOutputStream(Files.newOutputStream(folder.resolve("packed.txt.gz")))) {
            large(out, "2026-03-01 treat Amber hot-wax\n");
        }
        Files.writeString(folder.resolve("nul.txt"), FIRST + BIKE + "Dun\0lin\n");
        Files.writeString(folder.resolve("steer.txt"), FIRST + BIKE + "\u001b]0;owned\u0007\u001b[2J\n");
        Files.writeString(folder.resolve("long.txt"), FIRST + BIKE + "x".repeat(200_000));
        Files.writeString(folder.resolve("many.txt"), FIRST + "\n".repeat(200_000));
        Files.write(folder.resolve("half.txt"), (FIRST + "\u00e9").getBytes(StandardCharsets.ISO_8859_1));
        Files.write(folder.resolve("ride.txt"), RideMaker.ride(1, 86_400, 60));
        Files.writeString(folder.resolve("good.txt"), FIRST + BIKE + "Dunlin\n");

        Done done = imported(folder);
        assertEquals(ExitCode.REFUSED.code(), done.code(), done.err());
        List<String> told =
                done.err().lines().filter(l -> !l.startsWith("SLF4J")).toList();
        assertEquals(8, told.size(), done.err());
        assertTrue(told.stream().allMatch(l -> l.startsWith("chainage: ") && l.length() < 300), done.err());
        assertFalse((done.out() + done.err()).chars().anyMatch(c -> c < ' ' && c != '\n'), done.err());
        assertTrue(done.out().contains("1 imported"), done.out());
        assertTrue(done.out().contains("new: 2026-03-01 bike add Dunlin"), done.out());
    }

    @Test
    void logbooksInArchivesAreRead() throws IOException, InterruptedException {
        Path folder = Files.createDirectory(dir.resolve("exports"));
        try (OutputStream out = new GZIPOutputStream(Files.newOutputStream(folder.resolve("a.txt.gz")))) {
            out.write((FIRST + BIKE + "Dunlin\n").getBytes(StandardCharsets.UTF_8));
        }
        try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(folder.resolve("b.zip")))) {
            for (String bike : List.of("Otter", "Heron")) {
                zip.putNextEntry(new ZipEntry(bike + ".txt"));
                zip.write((FIRST + BIKE + bike + "\n").getBytes(StandardCharsets.UTF_8));
                zip.closeEntry();
            }
        }
        Done done = imported(folder);
        assertEquals(0, done.code(), done.err());
        for (String bike : List.of("Dunlin", "Otter", "Heron")) {
            assertTrue(done.out().contains("new: 2026-03-01 bike add " + bike), done.out());
        }
        Done again = imported(folder);
        assertEquals(0, again.code(), again.err());
        assertFalse(again.out().contains("Logbook"), again.out());
    }

    @Test
    void wordsThatAreNoCommandsCostNoMore() throws IOException, InterruptedException {
        StringBuilder text = new StringBuilder(FIRST);
        for (int i = 0; i < 1_000; i++) {
            text.append("2026-03-01 w").append(i).append(" Amber\n");
        }
        Path file = dir.resolve("words.txt");
        Files.writeString(file, text.append(BIKE).append("Dunlin\n"));
        Done done = imported(file);
        assertEquals(ExitCode.REFUSED.code(), done.code(), done.err());
        assertTrue(done.out().contains("lines 1 new, 1000 refused"), done.out());
    }

    private static void large(Path file, String repeated) throws IOException {
        try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file))) {
            large(out, repeated);
        }
    }

    private static void large(OutputStream out, String repeated) throws IOException {
        byte[] part = repeated.repeat(Math.max(1, 100_000 / repeated.length())).getBytes(StandardCharsets.UTF_8);
        out.write(FIRST.getBytes(StandardCharsets.UTF_8));
        for (long written = 0; written < LARGE; written += part.length) {
            out.write(part);
        }
    }

    private record Done(int code, String out, String err) {}

    private Done imported(Path what) throws IOException, InterruptedException {
        Path out = dir.resolve("out");
        Path err = dir.resolve("err");
        Process process = new ProcessBuilder(List.of(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-XX:+UseSerialGC",
                        "-Xmx64m",
                        // As the program's own manifest grants it; a newer Java warns without.
                        "--enable-native-access=ALL-UNNAMED",
                        "-cp",
                        System.getProperty("java.class.path"),
                        Main.class.getName(),
                        "--ledger",
                        dir.resolve("ledger.sqlite").toString(),
                        "import",
                        what.toString()))
                .redirectOutput(out.toFile())
                .redirectError(err.toFile())
                .start();
        process.getOutputStream().close();
        return new Done(process.waitFor(), Files.readString(out), Files.readString(err));
    }
}
