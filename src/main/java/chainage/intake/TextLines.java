package chainage.intake;

import chainage.importer.Gunzip;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Iterator;
import java.util.List;
import java.util.NoSuchElementException;
import org.jspecify.annotations.Nullable;

/**
 * The lines of a text file, plain or gzipped, one at a time. UTF-8 where its beginning is valid UTF-8, else Latin-1, which
 * older weather tables are in.
 */
final class TextLines implements Iterator<String>, AutoCloseable {
    private static final int LOOK = 1 << 16;

    /** Letters; our choice. A line of a record has some hundred; what is longer is something else, or a bomb. */
    private static final int LONGEST = 1 << 20;

    private final Path file;
    private final BufferedReader reader;
    private final ArrayDeque<String> ahead = new ArrayDeque<>();
    private long number;

    private TextLines(Path file, BufferedReader reader) {
        this.file = file;
        this.reader = reader;
    }

    public static TextLines of(Path file) throws IOException {
        InputStream in = Inputs.open(file);
        boolean done = false;
        try {
            in.mark(LOOK);
            byte[] start = in.readNBytes(LOOK);
            in.reset();
            TextLines lines = new TextLines(file, new BufferedReader(new InputStreamReader(in, charset(start))));
            done = true;
            return lines;
        } catch (Gunzip.Broken e) {
            throw broken(file, e);
        } finally {
            if (!done) {
                in.close();
            }
        }
    }

    private static CliError broken(Path file, Gunzip.Broken e) {
        return Inputs.broken(file, e, "fetch or copy it again");
    }

    private static Charset charset(byte[] start) {
        // The last few bytes may be the beginning of a letter.
        for (int cut = 0; cut < 4 && cut <= start.length; cut++) {
            try {
                StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(start, 0, start.length - cut));
                return StandardCharsets.UTF_8;
            } catch (CharacterCodingException e) {
                // said by the return below
            }
        }
        return StandardCharsets.ISO_8859_1;
    }

    /** The next lines without taking them; fewer where the text ends. */
    public List<String> peek(int lines) {
        while (ahead.size() < lines) {
            String line = read();
            if (line == null) {
                break;
            }
            ahead.add(line);
        }
        return ahead.stream().limit(lines).toList();
    }

    private @Nullable String read() {
        try {
            int c = reader.read();
            if (c < 0) {
                return null;
            }
            number++;
            StringBuilder line = new StringBuilder();
            for (; c >= 0 && c != '\n' && c != '\r'; c = reader.read()) {
                if (line.length() == LONGEST) {
                    throw new CliError(
                            ExitCode.REFUSED,
                            file + ":" + number + ": is longer than any line of weather records",
                            "name a text of reports or a table");
                }
                line.append((char) c);
            }
            if (c == '\r') {
                reader.mark(1);
                if (reader.read() != '\n') {
                    reader.reset();
                }
            }
            return line.toString();
        } catch (Gunzip.Broken e) {
            throw broken(file, e);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Override
    public boolean hasNext() {
        return !peek(1).isEmpty();
    }

    @Override
    public String next() {
        if (!hasNext()) {
            throw new NoSuchElementException();
        }
        return ahead.remove();
    }

    @Override
    public void close() throws IOException {
        reader.close();
    }
}
