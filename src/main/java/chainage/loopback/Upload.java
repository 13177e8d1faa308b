package chainage.loopback;

import java.io.ByteArrayInputStream;
import java.io.InputStream;

/** A file that was sent with a form. It is in memory alone. */
public final class Upload {
    private final String name;
    private final byte[] form;
    private final int from;
    private final int size;

    /** A stretch of a form as it was sent. */
    Upload(String name, byte[] form, int from, int size) {
        this.name = name;
        this.form = form;
        this.from = from;
        this.size = size;
    }

    /** As the sender names it: any text, perhaps with folders before it. */
    public String name() {
        return name;
    }

    /** Bytes. */
    public int size() {
        return size;
    }

    public InputStream open() {
        return new ByteArrayInputStream(form, from, size);
    }
}
