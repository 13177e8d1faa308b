package chainage.quantity;

import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import org.jspecify.annotations.Nullable;

/**
 * What makes a ride this ride: the content it was read from and its place among the activities there. Immutable; no
 * record, so that its name is worked out once and not at every question, which took more than a quarter of an answer's
 * time.
 */
public final class RideKey {
    /** Digits of the shortest id. */
    public static final int SHORTEST = 10;

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
     * @param id the beginning of the same key's {@link #fullId()}
     * @throws IllegalArgumentException when it cannot be, since it is no such name at all
     */
    public static RideKey named(ContentDigest digest, int session, String id) {
        if (id.length() < SHORTEST || !id.chars().allMatch(RideKey::isDigit)) {
            throw new IllegalArgumentException("no name of a ride");
        }
        RideKey key = new RideKey(digest, session);
        key.id = id;
        return key;
    }

    private static boolean isDigit(int c) {
        return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f');
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
     * The hexadecimal digits that name the ride to people and in facts: as many of its full id, ten or more, as tell it
     * from every other ride of the same ledger. A key that is in no ledger has ten.
     */
    public String id() {
        // Two threads may both work it out; they find the same.
        String known = id;
        if (known == null) {
            known = fullId().substring(0, SHORTEST);
            id = known;
        }
        return known;
    }

    /** The first digits of the id, which crafted contents may share. */
    public String shortestId() {
        return id().substring(0, SHORTEST);
    }

    /**
     * All 64 digits, which no two rides share. Derived from the content alone, so that the same files give the same in
     * any order of import.
     */
    public String fullId() {
        return HexFormat.of()
                .formatHex(ContentDigest.sha256()
                        .digest((digest.hex() + ":" + session).getBytes(StandardCharsets.US_ASCII)));
    }

    /** True when the full id begins with these digits. */
    public boolean begins(String digits) {
        // All that most questions need is known already.
        String known = id();
        return digits.length() <= known.length()
                ? known.startsWith(digits)
                : digits.startsWith(known) && fullId().startsWith(digits);
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
