package chainage.importer;

import java.io.InputStream;
import org.jspecify.annotations.Nullable;

/** A layer that remembers the last bytes that passed, where an archive keeps the record of its end. */
final class Tail extends Layer {
    /** Bytes of the record (APPNOTE 6.3.10, section 4.3.16); a comment of up to 65,535 may follow. */
    private static final int RECORD = 22;

    /** Bytes of the longer record (4.3.14) with its locator (4.3.15), which stand before. */
    private static final int WIDE = 56;

    private static final int LOCATOR = 20;
    private static final int KEPT = WIDE + LOCATOR + RECORD + 65_535;

    private final byte[] ring = new byte[KEPT];
    private int at;

    /**
     * An archive's end.
     *
     * @param listed entries in its directory; where there is no longer record modulo 65,536
     * @param directory where the directory begins as the record says, counted from the archive's first byte; −1 where
     *     the directory does not end before the record: it belongs to another archive
     * @param last true when nothing but zeros follows
     */
    record End(long listed, long directory, boolean last) {}

    Tail(InputStream in) {
        super(in);
    }

    @Override
    void passed(byte[] buffer, int from, int length) {
        int skipped = Math.max(0, length - KEPT);
        int start = from + skipped;
        int left = length - skipped;
        while (left > 0) {
            int n = Math.min(left, KEPT - at);
            System.arraycopy(buffer, start, ring, at, n);
            at = (at + n) % KEPT;
            start += n;
            left -= n;
        }
    }

    /** What the end record says: of several the last that reaches to the end, else the last; null without any. */
    @Nullable
    End end() {
        long kept = Math.min(count(), KEPT);
        int zeros = 0;
        while (zeros < kept && number(count() - 1 - zeros, 1) == 0) {
            zeros++;
        }
        End other = null;
        for (long record = count() - RECORD; record >= count() - kept; record--) {
            if (number(record, 4) == 0x06054b50) {
                long behind = count() - record - RECORD - number(record + 20, 2);
                if (behind >= 0 && behind <= zeros) {
                    return end(record, true);
                }
                other = other == null ? end(record, false) : other;
            }
        }
        return other;
    }

    private End end(long record, boolean last) {
        long locator = record - LOCATOR;
        long first = count() - Math.min(count(), KEPT);
        if (locator >= first && number(locator, 4) == 0x07064b50) {
            long wide = number(locator + 8, 8);
            return wide >= first && wide + WIDE <= locator && number(wide, 4) == 0x06064b50
                    ? end(number(wide + 32, 8), number(wide + 48, 8), number(wide + 40, 8), wide, last)
                    : new End(number(record + 10, 2), -1, last);
        }
        return end(number(record + 10, 2), number(record + 16, 4), number(record + 12, 4), record, last);
    }

    private static End end(long listed, long from, long size, long to, boolean last) {
        return new End(listed, from >= 0 && from + size == to ? from : -1, last);
    }

    /** A little-endian number at a place in all that has passed. */
    private long number(long place, int bytes) {
        long number = 0;
        for (int i = bytes - 1; i >= 0; i--) {
            number = number << 8 | (ring[Math.floorMod(at - (count() - place - i), KEPT)] & 0xff);
        }
        return number;
    }
}
