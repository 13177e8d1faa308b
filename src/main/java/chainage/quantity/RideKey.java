package chainage.quantity;

import java.nio.charset.StandardCharsets;
import java.util.HexFormat;

/**
 * What makes a ride this ride: the content it was read from and its place among the activities there.
 *
 * @param digest of the file's content
 * @param session place among the file's activities, from 0
 */
public record RideKey(ContentDigest digest, int session) {
    public RideKey {
        if (session < 0) {
            throw new IllegalArgumentException("session " + session);
        }
    }

    /**
     * Ten hexadecimal digits that name the ride to people. Derived from the content alone, so that the same files give
     * the same names in any order of import. Forty bits: among 10,000 rides the chance of any clash is 5 in 100,000.
     */
    public String id() {
        byte[] hash = ContentDigest.sha256().digest((digest.hex() + ":" + session).getBytes(StandardCharsets.US_ASCII));
        return HexFormat.of().formatHex(hash, 0, 5);
    }
}
