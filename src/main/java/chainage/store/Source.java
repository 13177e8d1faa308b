package chainage.store;

import chainage.quantity.ContentDigest;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * What a path held when it was last read.
 *
 * @param path absolute; an archive's entry as {@code archive.zip!/entry}
 * @param size bytes of the file, or of the unpacked entry
 * @param modifiedMillis time of last change, milliseconds since 1970 UTC; of the archive for an entry
 * @param digest of the decompressed content, or of the one that held the same recordings first; null for an archive, and where the content was not read to its end
 * @param verdict what was made of it
 * @param reason why, one line; empty where the verdict says all
 * @param hint what the rider can do; may be empty
 * @param refusedParts how many parts of a file that was imported were refused
 */
public record Source(
        String path,
        long size,
        long modifiedMillis,
        @Nullable ContentDigest digest,
        Verdict verdict,
        String reason,
        String hint,
        int refusedParts) {

    /** What was made of a file. */
    public enum Verdict {
        IMPORTED,
        /** Imported as far as it could be read. */
        SALVAGED,
        /** Its content was there already, from another path. */
        KNOWN,
        NOT_RIDE,
        REFUSED,
        /** Read to its end; its entries have sources of their own. */
        ARCHIVE;

        /** Lower-case word, as kept and printed. */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }

        static Verdict of(String word) {
            return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
        }
    }
}
