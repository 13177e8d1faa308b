package chainage.importer;

import java.nio.charset.StandardCharsets;
import java.util.regex.Pattern;

/** What the first bytes of a content promise, so that a folder of photos is not read to its end. */
enum Sniff {
    EMPTY,
    GZIP,
    ZIP,
    TAR,
    /** Bears the mark of FIT, or a root element of GPX or TCX: worth decoding. */
    RIDE,
    OTHER;

    /** How many bytes are looked at; a root element may stand behind a long comment. */
    static final int HEAD = 1 << 16;

    private static final Pattern ROOT =
            Pattern.compile("<([\\w.-]+:)?(gpx|TrainingCenterDatabase)[\\s>/]", Pattern.CASE_INSENSITIVE);

    static Sniff of(byte[] head) {
        if (head.length == 0) {
            return EMPTY;
        } else if (has(head, 0, "\u001f\u008b")) {
            return GZIP;
        } else if (has(head, 0, "PK\u0003\u0004") || has(head, 0, "PK\u0005\u0006")) {
            return ZIP;
        } else if (has(head, 8, ".FIT")) {
            return RIDE;
        } else if (has(head, 257, "ustar")) {
            return TAR;
        }
        // Without its NULs a text in UTF-16 reads like one in a one-byte code.
        String text = new String(head, StandardCharsets.ISO_8859_1).replace("\0", "");
        return ROOT.matcher(text).find() ? RIDE : OTHER;
    }

    private static boolean has(byte[] head, int at, String mark) {
        byte[] bytes = mark.getBytes(StandardCharsets.ISO_8859_1);
        if (head.length < at + bytes.length) {
            return false;
        }
        for (int i = 0; i < bytes.length; i++) {
            if (head[at + i] != bytes[i]) {
                return false;
            }
        }
        return true;
    }
}
