package chainage.quantity;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/**
 * SHA-256 of a file's content, after any decompression, so that a ride and its gzipped copy are one.
 *
 * @param hex 64 lower-case hexadecimal digits
 */
public record ContentDigest(String hex) {
    public ContentDigest {
        if (hex.length() != 64) {
            throw new IllegalArgumentException("not a SHA-256 digest: " + hex);
        }
    }

    public static ContentDigest of(byte[] content) {
        return new ContentDigest(HexFormat.of().formatHex(sha256().digest(content)));
    }

    static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new AssertionError("every Java platform has SHA-256", e);
        }
    }
}
