package chainage.store;

import chainage.quantity.ContentDigest;
import java.time.Instant;
import java.util.Collections;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What the ledger remembers of files, loaded whole, so that an unchanged archive costs no query a file. Immutable; any
 * thread may ask.
 */
public final class SeenSources {
    /** Nothing seen yet. */
    public static final SeenSources NONE = new SeenSources(Map.of(), Map.of());

    private final Map<String, Source> byPath;
    private final Map<ContentDigest, Content> byDigest;

    /** Keeps the two maps, which nobody else holds: copies of them took a twentieth of a night's time. */
    SeenSources(Map<String, Source> byPath, Map<ContentDigest, Content> byDigest) {
        this.byPath = Collections.unmodifiableMap(byPath);
        this.byDigest = Collections.unmodifiableMap(byDigest);
    }

    /** What was made of this path, when size and time of change are as they were then. */
    public Optional<Source> unchanged(String path, long size, long modifiedMillis) {
        return Optional.ofNullable(byPath.get(path))
                .filter(s -> s.size() == size && s.modifiedMillis() == modifiedMillis);
    }

    /** What was made of this content, under whatever path. */
    public Optional<Content> known(ContentDigest digest) {
        return Optional.ofNullable(byDigest.get(digest));
    }

    /**
     * What was made of a content.
     *
     * @param verdict imported, salvaged, not-ride or refused
     * @param reason one line; may be empty
     * @param hint what the rider can do; may be empty
     * @param ahead the date ahead of the clock that the verdict hung on; null where it did not
     */
    public record Content(
            Source.Verdict verdict,
            String reason,
            String hint,
            @Nullable Instant ahead) {}
}
