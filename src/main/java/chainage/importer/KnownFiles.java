package chainage.importer;

import chainage.quantity.ContentDigest;
import chainage.ride.Ride;
import java.io.IOException;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** What earlier imports have seen. Asked by several threads at once, once a file, so better without a query each. */
public interface KnownFiles {
    /** What was made of this path, when its size and time of change are as they were. */
    Optional<Known> unchanged(SourceStamp stamp);

    /** What was made of this content, under whatever path. */
    Optional<Known> known(ContentDigest digest);

    /**
     * The content that held the same recordings before this one, in this import too: a device or a service that exports
     * anew may change no more than the date of the export. Asked on the importing thread, once for each new content.
     */
    default Optional<ContentDigest> repeated(ContentDigest digest, List<Ride> rides) throws IOException {
        return Optional.empty();
    }

    /**
     * A verdict of an earlier import.
     *
     * @param digest of the content; null where none was taken
     * @param kind the verdict
     * @param reason one line; may be empty
     * @param hint what the rider can do; may be empty
     * @param ahead as of an {@link Outcome}; asked of contents only
     */
    record Known(
            @Nullable ContentDigest digest,
            Outcome.Kind kind,
            String reason,
            String hint,
            @Nullable Instant ahead) {}
}
