package chainage.importer;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;

/**
 * One step of unpacking: a file, a gzip stream, or an archive's entry. Marks each failure with the step it came from: a
 * broken archive and a broken gzip file inside a sound one are told apart only by that.
 */
class Layer extends FilterInputStream {
    private long count;

    Layer(InputStream in) {
        super(in);
    }

    /** Bytes read so far. */
    final long count() {
        return count;
    }

    /** Called after every read with how many bytes it gave. */
    void passed(byte[] buffer, int from, int length) throws IOException {}

    /** Reads to the end. */
    final void drain() throws IOException {
        byte[] buffer = new byte[8192];
        while (read(buffer, 0, buffer.length) >= 0) {
            // Only the end is of interest.
        }
    }

    @Override
    public final int read() throws IOException {
        byte[] one = new byte[1];
        return read(one, 0, 1) < 0 ? -1 : one[0] & 0xff;
    }

    @Override
    public final int read(byte[] buffer, int from, int length) throws IOException {
        int n;
        try {
            n = in.read(buffer, from, length);
        } catch (Failure | Bounds.Exceeded e) {
            throw e;
        } catch (IOException | RuntimeException e) {
            // The JDK's unpackers answer some malformed input with unchecked exceptions.
            throw new Failure(this, e);
        }
        if (n > 0) {
            count += n;
            passed(buffer, from, n);
        }
        return n;
    }

    @Override
    public final long skip(long n) throws IOException {
        return n <= 0 ? 0 : Math.max(0, read(new byte[(int) Math.min(n, 8192)]));
    }

    /** What will come is not known before it is read. */
    @Override
    public final int available() {
        return 0;
    }

    @Override
    public final boolean markSupported() {
        return false;
    }

    /** The layer below goes on after this one is done with. */
    @Override
    public final void close() {}

    /** A failure and the step it came from. */
    static final class Failure extends IOException {
        private static final long serialVersionUID = 1L;

        private final transient Layer layer;

        Failure(Layer layer, Exception cause) {
            super(cause.getMessage(), cause);
            this.layer = layer;
        }

        boolean isOf(Layer other) {
            return layer == other;
        }
    }
}
