package chainage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedOutputStream;
import java.io.File;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** What an import needs of memory does not grow with the archive: run in virtual machines with little of it. */
@Timeout(value = 10, unit = TimeUnit.MINUTES)
class ImportMemoryTest {
    private static final Instant START = Instant.parse("2024-05-04T08:00:00Z");

    @TempDir
    Path dir = Path.of("");

    /** 100 MB unpacked, in a heap of 64 MB. */
    @Test
    void anArchiveLargerThanTheHeapIsImported() throws IOException, InterruptedException {
        Path archive = dir.resolve("rides.zip");
        int entries = 250;
        long bytes = 0;
        try (ZipOutputStream zip = new ZipOutputStream(new BufferedOutputStream(Files.newOutputStream(archive)))) {
            zip.setLevel(1);
            for (int i = 0; i < entries; i++) {
                zip.putNextEntry(new ZipEntry("2024/" + i + ".gpx"));
                bytes += ride(zip, START.plus(i, ChronoUnit.DAYS), 4_000);
                zip.closeEntry();
            }
        }
        assertTrue(bytes > 100_000_000, bytes + " bytes");
        assertTrue(imported(64, archive).contains("\"imported\":" + entries + ","));
    }

    /** The bound that holds for any file of 50 MB. */
    @Test
    void oneFileOf50MegabytesTakesLessThan256() throws IOException, InterruptedException {
        Path file = dir.resolve("long.gpx");
        long bytes;
        try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file))) {
            bytes = ride(out, START, 480_000);
        }
        assertTrue(bytes > 50_000_000, bytes + " bytes");
        assertTrue(imported(256, file).contains("\"imported\":1,"));
    }

    private String imported(int heapMegabytes, Path what) throws IOException, InterruptedException {
        File out = dir.resolve("out").toFile();
        File err = dir.resolve("err").toFile();
        Process process = new ProcessBuilder(List.of(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-XX:+UseSerialGC",
                        "-Xmx" + heapMegabytes + "m",
                        "-cp",
                        System.getProperty("java.class.path"),
                        Main.class.getName(),
                        "--ledger",
                        dir.resolve("ledger.sqlite").toString(),
                        "import",
                        "--json",
                        what.toString()))
                .redirectOutput(out)
                .redirectError(err)
                .start();
        process.getOutputStream().close();
        assertEquals(0, process.waitFor(), Files.readString(err.toPath()));
        return Files.readString(out.toPath()).replaceAll("\\s", "");
    }

    /** A track to and fro at 2 m/s; answers its bytes. */
    private static long ride(OutputStream out, Instant start, int points) throws IOException {
        long bytes = write(out, "<?xml version=\"1.0\"?>\n<gpx version=\"1.1\"><trk><type>cycling</type><trkseg>\n");
        for (int i = 0; i < points; i++) {
            int along = Math.abs(i % 20_000 - 10_000);
            bytes += write(
                    out,
                    "<trkpt lat=\"" + (5_000_000 + 180 * along) / 1e7 + "\" lon=\"-30.0\"><ele>" + (100 + i % 90)
                            + "</ele><time>" + start.plusSeconds(i) + "</time><extensions><hr>140</hr></extensions>"
                            + "</trkpt>\n");
        }
        return bytes + write(out, "</trkseg></trk></gpx>\n");
    }

    private static int write(OutputStream out, String text) throws IOException {
        byte[] bytes = text.getBytes(StandardCharsets.ISO_8859_1);
        out.write(bytes);
        return bytes.length;
    }
}
