package chainage.demo;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.LocalDateTime;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;

/** Compressed files with no clock in them. */
final class Packed {
    private static final LocalDateTime ENTRY_TIME = LocalDateTime.of(2026, 6, 18, 12, 0);

    private Packed() {}

    /** The library writes 0 for the time. */
    static byte[] gzip(byte[] content) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (GZIPOutputStream out = new GZIPOutputStream(bytes)) {
            out.write(content);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return bytes.toByteArray();
    }

    static byte[] zip(SortedMap<String, byte[]> entries) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ZipOutputStream out = new ZipOutputStream(bytes)) {
            for (Map.Entry<String, byte[]> entry : entries.entrySet()) {
                ZipEntry header = new ZipEntry(entry.getKey());
                header.setTimeLocal(ENTRY_TIME);
                out.putNextEntry(header);
                out.write(entry.getValue());
                out.closeEntry();
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return bytes.toByteArray();
    }

    /** What a file holds: by name of entry, one without a name for a plain or gzip file. */
    static SortedMap<String, byte[]> unpacked(String name, byte[] content) throws IOException {
        SortedMap<String, byte[]> parts = new TreeMap<>();
        if (name.endsWith(".gz")) {
            try (GZIPInputStream in = new GZIPInputStream(new ByteArrayInputStream(content))) {
                parts.put("", in.readAllBytes());
            }
        } else if (name.endsWith(".zip")) {
            try (ZipInputStream in = new ZipInputStream(new ByteArrayInputStream(content))) {
                for (ZipEntry e = in.getNextEntry(); e != null; e = in.getNextEntry()) {
                    String entry = e.getName() + " " + e.getTimeLocal();
                    unpacked(e.getName(), in.readAllBytes()).forEach((n, b) -> parts.put(entry + n, b));
                }
            }
        } else {
            parts.put("", content);
        }
        return parts;
    }
}
