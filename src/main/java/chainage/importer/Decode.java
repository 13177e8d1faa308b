package chainage.importer;

import chainage.quantity.ContentDigest;
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
     * @param digest of the content
     * @param latest no ride can start after this
     * @throws RideFileException when nothing in it can be used
     */
    Decoded decode(byte[] content, ContentDigest digest, Instant latest) throws RideFileException;
}
