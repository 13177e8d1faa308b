package chainage.quantity;

import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import org.jspecify.annotations.Nullable;

/**
 * What makes a ride this ride: the content it was read from and its place among the activities there. Immutable; no
 * record, so that its name is worked out once and not at every question, which took more than a quarter of an answer's time.
 */
public final class RideKey {
    private final ContentDigest digest;
    private final int session;
    private @Nullable String id;

    /**
     * A key whose name is worked out when it is asked for.
     *
     * @param digest of the file's content
     * @param session place among the file's activities, from 0
     */
    public RideKey(ContentDigest digest, int session) {
        if (session < 0) {
            throw new IllegalArgumentException("session " + session);
        }
        this.digest = digest;
        this.session = session;
    }

    /**
     * A key whose name is known.
     *
     * @param id the one that {@link #id()} gave for the same digest and session
     */
    public static RideKey named(ContentDigest digest, int session, String id) {
        RideKey key = new RideKey(digest, session);
        key.id = id;
        return key;
    }

    /** Of the file's content. */
    public ContentDigest digest() {
        return digest;
    }

    /** Place among the file's activities, from 0. */
    public int session() {
        return session;
    }

    /**
     * Ten hexadecimal digits that name the ride to people. Derived from the content alone, so that the same files give
     * the same names in any order of import. Forty bits: among 10,000 rides the chance of any clash is 5 in 100,000.
     */
    public String id() {
        // Two threads may both work it out; they find the same.
        String known = id;
        if (known == null) {
            byte[] hash =
                    ContentDigest.sha256().digest((digest.hex() + ":" + session).getBytes(StandardCharsets.US_ASCII));
            known = HexFormat.of().formatHex(hash, 0, 5);
            id = known;
        }
        return known;
    }

    @Override
    public boolean equals(@Nullable Object other) {
        return other instanceof RideKey k && k.session == session && k.digest.equals(digest);
    }

    @Override
    public int hashCode() {
        return 31 * digest.hashCode() + session;
    }

    @Override
    public String toString() {
        return digest.hex() + ":" + session;
    }
}
