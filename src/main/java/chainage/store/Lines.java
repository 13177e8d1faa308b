package chainage.store;

import java.io.BufferedInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import org.jspecify.annotations.Nullable;

/** The lines of a text from outside, one at a time: UTF-8 to the letter, none too long to hold. */
final class Lines {
    /** Bytes; our guess. A day's ride with its evidence takes about 2,000. */
    private static final int LONGEST = 16 << 20;

    private final InputStream in;
    private final ByteArrayOutputStream line = new ByteArrayOutputStream();
    private long number;

    Lines(InputStream in) {
        this.in = new BufferedInputStream(in, 1 << 16);
    }

    /** Number of the line read last, from 1; 0 before the first. */
    long number() {
        return number;
    }

    /** The next line without its end; null after the last. */
    @Nullable
    String next() throws IOException, ExportException {
        line.reset();
        int c = in.read();
        if (c < 0) {
            return null;
        }
        number++;
        for (; c >= 0 && c != '\n'; c = in.read()) {
            if (line.size() >= LONGEST) {
                throw new ExportException(number, "is longer than any line of an export", "export it again");
            }
            line.write(c);
        }
        try {
            return StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(line.toByteArray()))
                    .toString();
        } catch (CharacterCodingException e) {
            throw new ExportException(number, "is not UTF-8 text", "the file is damaged; export it again");
        }
    }
}
