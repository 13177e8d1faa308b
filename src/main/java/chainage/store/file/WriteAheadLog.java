package chainage.store.file;

import java.io.BufferedInputStream;
import java.io.DataInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.LinkedHashSet;
import java.util.Optional;
import java.util.Set;

/**
 * What a write-ahead log says of itself, read without SQLite: the format is that of sqlite.org/walformat.html.
 *
 * <p>Checksums are not looked at: frames that a rolled back transaction left can only add a stamp that no file bears.
 *
 * @param pageSize bytes
 * @param committed true when at least one transaction was completed in it
 * @param stamps of the state it began from, and of all states it holds, in hexadecimal; empty where it holds none
 * @param first the state it began from; empty where it holds no stamp
 */
record WriteAheadLog(int pageSize, boolean committed, Set<String> stamps, String first) {
    /** What {@code stamp.mark} is, see 003-stamp.sql. */
    private static final byte[] MARK = HexFormat.of().parseHex("f5c1a6f0e9d8ff93b8fec3d2a1ffc0ee");

    /** Bytes of a stamp. */
    private static final int STAMP = 16;

    /** The first column of a ledger that was brought up to stamps: no state before had one. */
    static final String NONE = "00".repeat(STAMP);

    /** Without its last bit, which says in which order bytes enter the checksums. */
    private static final int MAGIC = 0x377f0682;

    /** First byte of a page that holds rows of a table. */
    private static final byte ROWS = 0x0d;

    /** Reads a log; empty when SQLite would find nothing in it either. */
    static Optional<WriteAheadLog> read(Path path) throws IOException {
        try (DataInputStream in = new DataInputStream(new BufferedInputStream(Files.newInputStream(path), 1 << 16))) {
            if ((in.readInt() & ~1) != MAGIC) {
                return Optional.empty();
            }
            in.skipNBytes(4);
            int pageSize = in.readInt();
            if (pageSize < 512 || pageSize > 65_536) {
                return Optional.empty();
            }
            in.skipNBytes(4);
            long salt = in.readLong();
            in.skipNBytes(8);
            return Optional.of(frames(in, pageSize, salt));
        } catch (EOFException e) {
            return Optional.empty();
        }
    }

    private static WriteAheadLog frames(DataInputStream in, int pageSize, long salt) throws IOException {
        boolean committed = false;
        Set<String> stamps = new LinkedHashSet<>();
        String first = "";
        byte[] page = new byte[pageSize];
        try {
            while (true) {
                in.skipNBytes(4);
                int commit = in.readInt();
                if (in.readLong() != salt) {
                    break; // left from an earlier use of the same file
                }
                in.skipNBytes(8);
                in.readFully(page);
                committed |= commit != 0;
                int at = stampIn(page);
                if (at >= 0) {
                    String before = HexFormat.of().formatHex(page, at, at + STAMP);
                    if (stamps.isEmpty()) {
                        first = before;
                        stamps.add(before);
                    }
                    stamps.add(HexFormat.of().formatHex(page, at + STAMP, at + 2 * STAMP));
                }
            }
        } catch (EOFException e) {
            // The end, perhaps within a frame that was never completed.
        }
        return new WriteAheadLog(pageSize, committed, stamps, first);
    }

    /** Where the two stamps stand in the page of the one row that has them; -1 in any other page. */
    private static int stampIn(byte[] page) {
        if (page[0] != ROWS || page[3] != 0 || page[4] != 1) {
            return -1;
        }
        for (int at = page.length - MARK.length - 2 * STAMP; at > 0; at--) {
            if (Arrays.equals(page, at, at + MARK.length, MARK, 0, MARK.length)) {
                return at + MARK.length;
            }
        }
        return -1;
    }
}
