package chainage.loopback;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.HashSet;
import java.util.Set;

/**
 * Who may look: whoever has a key, which opens once, and from then on whoever has the cookie. Safe for threads.
 *
 * <p>Browsers send a cookie to every port of a host. So it is bound to a path that no other server knows.
 */
final class Session {
    private static final int BYTES = 32;
    private static final int PATH_BYTES = 9;
    private static final SecureRandom CHANCE = new SecureRandom();

    private final String path = "/" + random(PATH_BYTES) + "/";
    private final String cookie = random(BYTES);
    private final String token = random(BYTES);
    private final Set<String> keys = new HashSet<>();

    private static String random(int bytes) {
        byte[] b = new byte[bytes];
        CHANCE.nextBytes(b);
        return Base64.getUrlEncoder().withoutPadding().encodeToString(b);
    }

    /** Where all pages lie, from slash to slash. */
    String path() {
        return path;
    }

    String token() {
        return token;
    }

    /** A key that was not there before. */
    synchronized String key() {
        String key = random(BYTES);
        keys.add(key);
        return key;
    }

    /** Uses a key up; false where it is none, or was used. */
    synchronized boolean opens(String key) {
        return keys.removeIf(k -> same(k, key));
    }

    /** The header that hands out the cookie. */
    String handOut() {
        return "session=" + cookie + "; Path=" + path + "; HttpOnly; SameSite=Strict";
    }

    /** Whether a header of cookies has ours. */
    boolean holds(String header) {
        for (String c : header.split(";", -1)) {
            if (same("session=" + cookie, c.strip())) {
                return true;
            }
        }
        return false;
    }

    boolean isToken(String sent) {
        return same(token, sent);
    }

    /** In a time that does not tell how much of it is right. */
    private static boolean same(String a, String b) {
        return MessageDigest.isEqual(a.getBytes(StandardCharsets.UTF_8), b.getBytes(StandardCharsets.UTF_8));
    }
}
