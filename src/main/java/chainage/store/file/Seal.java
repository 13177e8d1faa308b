package chainage.store.file;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.CRC32;

/**
 * What the files of a folder were when they were put there, kept in a file beside them: its first line says by what they
 * were made, each further one a checksum and a name. It finds damage, not forgery: who can write there can seal, too. A
 * CRC-32 is computed by the processor before anything is compiled: 1 ms for SQLite's library.
 *
 * @param by by what they were made; one line
 * @param sums CRC-32 of each file by its name
 */
public record Seal(String by, Map<String, Long> sums) {
    /** The name of the seal itself. */
    public static final String FILE = "seal";

    public Seal {
        sums = Map.copyOf(sums);
    }

    /** Seals files of a folder. */
    public static void put(Path folder, String by, List<String> names) throws IOException {
        StringBuilder text = new StringBuilder(by).append('\n');
        for (String name : names) {
            text.append(Long.toHexString(sum(folder.resolve(name))))
                    .append(' ')
                    .append(name)
                    .append('\n');
        }
        Files.writeString(folder.resolve(FILE), text);
    }

    /**
     * Reads the seal of a folder.
     *
     * @throws IOException when it is missing or is no seal
     */
    public static Seal read(Path folder) throws IOException {
        List<String> lines = Files.readAllLines(folder.resolve(FILE));
        if (lines.size() < 2) {
            throw new IOException("no seal");
        }
        Map<String, Long> sums = new HashMap<>();
        for (String line : lines.subList(1, lines.size())) {
            int space = line.indexOf(' ');
            try {
                sums.put(line.substring(space + 1), Long.parseLong(line, 0, Math.max(space, 0), 16));
            } catch (NumberFormatException e) {
                throw new IOException("no seal", e);
            }
        }
        return new Seal(lines.get(0), sums);
    }

    /** True when a file of that folder is what was sealed; false also where it is missing or cannot be read. */
    public boolean holds(Path folder, String name) {
        Long sum = sums.get(name);
        try {
            return sum != null && sum == sum(folder.resolve(name));
        } catch (IOException e) {
            return false;
        }
    }

    private static long sum(Path file) throws IOException {
        CRC32 sum = new CRC32();
        byte[] block = new byte[1 << 16];
        try (InputStream in = Files.newInputStream(file, LinkOption.NOFOLLOW_LINKS)) {
            for (int n = in.read(block); n >= 0; n = in.read(block)) {
                sum.update(block, 0, n);
            }
        }
        return sum.getValue();
    }
}
