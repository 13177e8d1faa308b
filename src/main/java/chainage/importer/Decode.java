package chainage.importer;

import chainage.ridefile.Decoded;
import chainage.ridefile.RideFileException;
import java.time.Instant;

/** Reads the content of one ride file. Called by several threads at once. */
@FunctionalInterface
public interface Decode {
    /**
     * Reads one file.
     *
     * @param content the whole file, decompressed
     * @param latest no ride can start after this
     * @throws RideFileException when nothing in it can be used
     */
    Decoded decode(byte[] content, Instant latest) throws RideFileException;
}
