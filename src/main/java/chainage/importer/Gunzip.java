package chainage.importer;

import java.io.IOException;
import java.io.InputStream;
import java.util.zip.CRC32;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;

/**
 * The content of a gzip stream: that of all its members, one after the other (RFC 1952, section 2.2). It ends only where
 * the stream does. Zeros behind the last member are padding, as they are to gzip(1); anything else there is an error.
 *
 * <p>The JDK's own reader takes the stream for ended when a member ends where the stream below has nothing ready, or
 * when what follows is no whole header: what came after was lost without a word.
 */
public final class Gunzip extends InputStream {
    private static final int HEADER_CHECKSUM = 1 << 1;
    private static final int EXTRA = 1 << 2;
    private static final int NAME = 1 << 3;
    private static final int COMMENT = 1 << 4;
    private static final int RESERVED = 0xe0;
    private static final int DEFLATE = 8;

    private final InputStream in;
    private final byte[] buffer = new byte[8192];
    private final Inflater inflater = new Inflater(true);
    private final CRC32 checksum = new CRC32();
    private int at;
    private int filled;
    private boolean begun;
    private boolean inMember;

    /** Reads {@code in} from its first byte on, and closes it with itself. */
    public Gunzip(InputStream in) {
        this.in = in;
    }

    /** A stream that is not what RFC 1952 says; the message is one line. */
    public static final class Broken extends IOException {
        private static final long serialVersionUID = 1L;

        private final boolean torn;

        private Broken(String message, boolean torn) {
            super(message);
            this.torn = torn;
        }

        /** True when the stream ends too early, as that of a file does that is still being written. */
        public boolean torn() {
            return torn;
        }
    }

    @Override
    public int read() throws IOException {
        byte[] one = new byte[1];
        return read(one, 0, 1) < 0 ? -1 : one[0] & 0xff;
    }

    /**
     * As every stream reads.
     *
     * @throws Broken where it is no gzip
     */
    @Override
    public int read(byte[] into, int from, int length) throws IOException {
        while (length > 0) {
            if (!inMember && !nextMember()) {
                return -1;
            }
            int n = inflate(into, from, length);
            if (n > 0) {
                checksum.update(into, from, n);
                return n;
            }
            if (inflater.finished()) {
                at = filled - inflater.getRemaining();
                trailer();
            } else if (inflater.needsInput() && fill()) {
                inflater.setInput(buffer, 0, filled);
            } else {
                throw inflater.needsDictionary() ? broken("asks for a dictionary") : torn();
            }
        }
        return 0;
    }

    private int inflate(byte[] into, int from, int length) throws Broken {
        try {
            return inflater.inflate(into, from, length);
        } catch (DataFormatException e) {
            throw broken(e.getMessage() == null ? "bad data" : e.getMessage());
        }
    }

    /** Goes to the next member's data; false at the end of the stream. */
    private boolean nextMember() throws IOException {
        int first = nextOrEnd();
        boolean padding = begun && first == 0;
        while (padding && first == 0) {
            first = nextOrEnd();
        }
        if (first < 0 && begun) {
            return false;
        }
        if (padding || first != 0x1f || next() != 0x8b) {
            throw first < 0 ? torn() : broken(begun ? "what stands behind its end is no gzip" : "no gzip");
        }
        begun = true;
        header();
        inflater.reset();
        inflater.setInput(buffer, at, filled - at);
        checksum.reset();
        inMember = true;
        return true;
    }

    /** The rest of a header, up to the data (section 2.3). */
    private void header() throws IOException {
        checksum.reset();
        checksum.update(0x1f);
        checksum.update(0x8b);
        int method = checked();
        int flags = checked();
        if (method != DEFLATE || (flags & RESERVED) != 0) {
            throw broken("of an unknown kind");
        }
        pass(6); // time of change, two marks of the packer
        if ((flags & EXTRA) != 0) {
            pass(checked() | checked() << 8);
        }
        if ((flags & NAME) != 0) {
            passText();
        }
        if ((flags & COMMENT) != 0) {
            passText();
        }
        long sum = checksum.getValue() & 0xffff;
        if ((flags & HEADER_CHECKSUM) != 0 && number(2) != sum) {
            throw broken("its header's checksum is wrong");
        }
    }

    private void pass(int bytes) throws IOException {
        for (int i = 0; i < bytes; i++) {
            checked();
        }
    }

    private void passText() throws IOException {
        while (checked() != 0) {
            // Names and comments are not used.
        }
    }

    private void trailer() throws IOException {
        if (number(4) != checksum.getValue()) {
            throw broken("its checksum is wrong");
        }
        if (number(4) != (inflater.getBytesWritten() & 0xffffffffL)) {
            throw broken("its length is wrong");
        }
        inMember = false;
    }

    /** Little-endian. */
    private long number(int bytes) throws IOException {
        long number = 0;
        for (int i = 0; i < bytes; i++) {
            number |= (long) next() << (8 * i);
        }
        return number;
    }

    private int checked() throws IOException {
        int b = next();
        checksum.update(b);
        return b;
    }

    private int next() throws IOException {
        int b = nextOrEnd();
        if (b < 0) {
            throw torn();
        }
        return b;
    }

    private int nextOrEnd() throws IOException {
        return at < filled || fill() ? buffer[at++] & 0xff : -1;
    }

    private boolean fill() throws IOException {
        at = 0;
        filled = Math.max(0, in.read(buffer, 0, buffer.length));
        return filled > 0;
    }

    private static Broken torn() {
        return new Broken("the gzip stream ends too early", true);
    }

    private static Broken broken(String how) {
        return new Broken("the gzip stream is broken (" + how + ")", false);
    }

    @Override
    public void close() throws IOException {
        inflater.end();
        in.close();
    }
}
