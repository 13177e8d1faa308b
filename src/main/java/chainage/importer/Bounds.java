package chainage.importer;

import java.io.IOException;
import java.io.InputStream;

/** Counts what one file on the disk unpacks to, at all depths together, and stops a bomb. */
final class Bounds {
    private final UnpackLimits limits;
    private final long most;
    private long unpacked;
    private int entries;

    /** @param size of the file on the disk */
    Bounds(UnpackLimits limits, long size) {
        this.limits = limits;
        this.most = Math.max(limits.ratioFrom(), size * limits.ratio());
    }

    /** Notes one more entry of an archive. */
    void entry() throws Exceeded {
        if (++entries > limits.entries()) {
            throw new Exceeded("holds more than " + limits.entries() + " entries");
        }
    }

    /** A layer that unpacks what another one gives. */
    Layer unpacking(InputStream in, Layer packed) {
        long before = packed.count();
        return new Layer(in) {
            @Override
            void passed(byte[] buffer, int from, int length) throws Exceeded {
                unpacked += length;
                long ratioBound = (packed.count() - before) * limits.ratio();
                if (unpacked > most || count() > Math.max(limits.ratioFrom(), ratioBound)) {
                    throw new Exceeded("unpacks to more than " + limits.ratio() + " times its size");
                }
            }
        };
    }

    /** A bound that no honest file reaches. */
    static final class Exceeded extends IOException {
        private static final long serialVersionUID = 1L;

        Exceeded(String what) {
            super(what);
        }
    }
}
