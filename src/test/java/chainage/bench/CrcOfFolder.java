package chainage.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;

/**
 * The least that a reader of FIT files must do: read every byte and compute the file's CRC-16. Arguments: folder,
 * threads. Prints how many files and bytes; fails if a file's own CRC does not come out.
 */
final class CrcOfFolder {
    private static final int[] TABLE = table();

    private CrcOfFolder() {}

    public static void main(String[] args) throws Exception {
        List<Path> files;
        try (Stream<Path> all = Files.walk(Path.of(args[0]))) {
            files = all.filter(Files::isRegularFile).toList();
        }
        ExecutorService workers = Executors.newFixedThreadPool(Integer.parseInt(args[1]));
        try {
            List<Callable<Long>> tasks = new ArrayList<>();
            files.forEach(file -> tasks.add(() -> read(file)));
            long bytes = 0;
            for (Future<Long> done : workers.invokeAll(tasks)) {
                bytes += done.get();
            }
            System.out.println(files.size() + " files, " + bytes + " bytes");
        } finally {
            workers.shutdown();
        }
    }

    private static long read(Path file) throws IOException {
        byte[] content = Files.readAllBytes(file);
        // A CRC over the content and its own CRC, low byte first, is 0.
        if (crc(content, content.length) != 0) {
            throw new IOException(file + ": its CRC is wrong");
        }
        return content.length;
    }

    /** CRC-16 of the FIT protocol: reflected, polynomial 0xA001, start 0; one table look-up a byte. */
    static int crc(byte[] content, int length) {
        int crc = 0;
        for (int i = 0; i < length; i++) {
            crc = (crc >>> 8) ^ TABLE[(crc ^ content[i]) & 0xff];
        }
        return crc;
    }

    private static int[] table() {
        int[] table = new int[256];
        for (int i = 0; i < table.length; i++) {
            int value = i;
            for (int bit = 0; bit < 8; bit++) {
                value = (value & 1) == 0 ? value >>> 1 : (value >>> 1) ^ 0xA001;
            }
            table[i] = value;
        }
        return table;
    }
}
