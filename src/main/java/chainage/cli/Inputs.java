package chainage.cli;

import chainage.importer.Gunzip;
import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;

/** Files that are given to a command. */
final class Inputs {
    private static final int BUFFER = 1 << 16;

    private Inputs() {}

    /** The content of a file, unpacked when it is gzipped; can be marked and reset within 64 KB. */
    static InputStream open(Path file) throws IOException {
        InputStream raw = Files.newInputStream(file);
        try {
            InputStream in = new BufferedInputStream(raw, BUFFER);
            in.mark(2);
            boolean zipped = in.read() == 0x1f && in.read() == 0x8b;
            in.reset();
            return zipped ? new BufferedInputStream(new Gunzip(in), BUFFER) : in;
        } catch (IOException e) {
            raw.close();
            throw e;
        }
    }

    /** What to tell of a file that is no sound gzip. */
    static CliError broken(Path file, Gunzip.Broken e, String hint) {
        return new CliError(ExitCode.REFUSED, file + ": " + e.getMessage(), hint);
    }
}
