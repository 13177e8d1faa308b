package chainage.importer;

import chainage.quantity.ContentDigest;
import java.time.Instant;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** What earlier imports have seen. Asked by several threads at once, once a file, so better without a query each. */
public interface Memory {
    /** What was made of this path, when its size and time of change are as they were. */
    Optional<Known> unchanged(SourceStamp stamp);

    /** What was made of this content, under whatever path. */
    Optional<Known> known(ContentDigest digest);

    /**
     * A verdict of an earlier import.
     *
     * @param digest of the content; null where none was taken
     * @param kind the verdict
     * @param reason one line; may be empty
     * @param mend what the rider can do; may be empty
     * @param ahead as of an {@link Outcome}; asked of contents only
     */
    record Known(
            @Nullable ContentDigest digest,
            Outcome.Kind kind,
            String reason,
            String mend,
            @Nullable Instant ahead) {}
}
