package chainage.importer;

import java.io.InputStream;

/** A layer that remembers the last bytes that passed, where an archive keeps the directory's end record. */
final class Tail extends Layer {
    /** The record is 22 bytes long, a comment of up to 65,535 may follow. */
    private static final int KEPT = 22 + 65_535;

    private static final int NO_RECORD = -1;

    private final byte[] ring = new byte[KEPT];
    private int at;

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

    /**
     * How many entries the archive's directory lists, by its end record.
     *
     * @return modulo 65,536, since archives with more keep a longer record elsewhere; −1 when there is no end record
     */
    int entriesListed() {
        int kept = (int) Math.min(count(), KEPT);
        for (int back = 22; back <= kept; back++) {
            if (last(back) == 'P' && last(back - 1) == 'K' && last(back - 2) == 5 && last(back - 3) == 6) {
                return last(back - 10) | last(back - 11) << 8;
            }
        }
        return NO_RECORD;
    }

    /** The byte that stands so many from the end, the last one being 1. */
    private int last(int back) {
        return ring[Math.floorMod(at - back, KEPT)] & 0xff;
    }
}
