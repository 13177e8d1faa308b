package chainage.host;

import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.channels.Pipe;
import org.jspecify.annotations.Nullable;

/**
 * A stream to others that remembers a failure to write, which {@link java.io.PrintWriter} swallows. That a reader has
 * gone, such as {@code head} with its lines, is no failure.
 */
public final class Outlet extends FilterOutputStream {
    private @Nullable String lost;

    /** A stream around the one to the outside. */
    public Outlet(OutputStream out) {
        super(out);
    }

    /** Why something could not be written; null when all was, or when nobody reads any more. */
    public @Nullable String lost() {
        return lost;
    }

    @Override
    public void write(byte[] bytes, int from, int length) throws IOException {
        try {
            out.write(bytes, from, length);
        } catch (IOException e) {
            if (!isOfAClosedPipe(e)) {
                lost = String.valueOf(e.getMessage());
            }
            throw e;
        }
    }

    /**
     * Whether the system's error is EPIPE (write(2)). Java hands on the error's text alone, in the rider's language; so it
     * is held against the text that this system, in this language, has for a pipe that nobody reads.
     */
    private static boolean isOfAClosedPipe(IOException e) throws IOException {
        Pipe pipe = Pipe.open();
        try (Pipe.SinkChannel sink = pipe.sink()) {
            pipe.source().close();
            sink.write(ByteBuffer.allocate(1));
            return false;
        } catch (IOException closed) {
            return String.valueOf(closed.getMessage()).equals(e.getMessage());
        }
    }
}
