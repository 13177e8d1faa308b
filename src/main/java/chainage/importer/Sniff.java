package chainage.importer;

import chainage.logbook.LogbookText;
import chainage.ridefile.RideFiles;
import java.nio.charset.StandardCharsets;

/** What the first bytes of a content promise, so that a folder of photos is not read to its end. */
enum Sniff {
    EMPTY,
    GZIP,
    ZIP,
    TAR,
    /** Promises a ride file: worth decoding. */
    RIDE,
    LOGBOOK,
    OTHER;

    /** How many bytes are looked at; a root element may stand behind a long comment. */
    static final int HEAD = 1 << 16;

    static Sniff of(byte[] head) {
        if (head.length == 0) {
            return EMPTY;
        } else if (has(head, 0, "\u001f\u008b")) {
            return GZIP;
        } else if (has(head, 0, "PK\u0003\u0004") || has(head, 0, "PK\u0005\u0006")) {
            return ZIP;
        } else if (has(head, 257, "ustar")) {
            return TAR;
        }
        if (LogbookText.promises(head)) {
            return LOGBOOK;
        }
        return RideFiles.promises(head) ? RIDE : OTHER;
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
