package chainage.intake;

import chainage.importer.Gunzip;
import chainage.importer.Handed;
import chainage.importer.Opening;
import chainage.typed.CliError;
import chainage.typed.ExitCode;
import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;

/** Files that are given to a command. */
public final class Inputs {
    private static final int BUFFER = 1 << 16;

    private Inputs() {}

    /**
     * A file, on the disk or handed over.
     *
     * @param name as it was given
     * @param whole false for what may be emptied by looking at it, such as a pipe
     */
    public record Given(String name, boolean whole, Opening opening) {
        public static Given of(Path file) {
            return new Given(file.toString(), Files.isRegularFile(file), () -> Files.newInputStream(file));
        }

        public static Given of(Handed file) {
            return new Given(file.name(), true, file.opening());
        }
    }

    /** The content of a file, unpacked when it is gzipped; can be marked and reset within 64 KB. */
    public static InputStream open(Path file) throws IOException {
        return open(Given.of(file));
    }

    /** The content of a file, unpacked when it is gzipped; can be marked and reset within 64 KB. */
    public static InputStream open(Given file) throws IOException {
        InputStream raw = file.opening().open();
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

    /** So much of a file's content; where it is gzipped, unpacked. */
    public static byte[] atMost(int bytes, Path file) throws IOException {
        try (InputStream in = open(file)) {
            return in.readNBytes(bytes);
        } catch (Gunzip.Broken e) {
            throw broken(file, e, "fetch or copy it again");
        }
    }

    /** What to tell of a file that is no sound gzip. */
    public static CliError broken(Object file, Gunzip.Broken e, String hint) {
        return new CliError(ExitCode.REFUSED, file + ": " + e.getMessage(), hint);
    }
}
