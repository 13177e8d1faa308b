package chainage.store;

import chainage.quantity.ContentDigest;
import chainage.ride.Ride;
import chainage.store.row.RideRow;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * Which content told a recording first. Two contents record the same when all that is kept of their rides is alike, as
 * in an export made anew, of which only the date of the export is another.
 *
 * <p>Looks only at rides that start together, and at each once. For one thread.
 */
public final class Recordings {
    private final @Nullable LedgerFile ledger;
    private final Map<ContentDigest, ContentDigest> first = new HashMap<>();
    private @Nullable Map<Instant, List<Long>> unread;

    Recordings(@Nullable LedgerFile ledger) {
        this.ledger = ledger;
    }

    /** Those of no ledger yet. */
    public static Recordings none() {
        return new Recordings(null);
    }

    /**
     * The content that told these rides before; from now on this one, if none did.
     *
     * @param rides all of the content, by place in it
     * @return empty for the first one
     */
    public Optional<ContentDigest> first(ContentDigest content, List<Ride> rides) throws IOException {
        for (Ride ride : rides) {
            // As kept: to the millisecond.
            for (long there : unread(Instant.ofEpochMilli(ride.start().toEpochMilli()))) {
                List<Ride> known = ledger == null ? List.of() : ledger.ridesOf(there);
                if (!known.isEmpty()) {
                    first.putIfAbsent(recorded(known), known.get(0).key().digest());
                }
            }
        }
        ContentDigest before = first.putIfAbsent(recorded(rides), content);
        return Optional.ofNullable(before).filter(b -> !b.equals(content));
    }

    private List<Long> unread(Instant start) throws IOException {
        if (unread == null) {
            unread = ledger == null ? new HashMap<>() : ledger.contentsByStart();
        }
        List<Long> contents = unread.remove(start);
        return contents == null ? List.of() : contents;
    }

    private static ContentDigest recorded(List<Ride> rides) {
        String all = rides.stream().map(RideRow::recorded).collect(Collectors.joining("\n"));
        return ContentDigest.of(all.getBytes(StandardCharsets.UTF_8));
    }
}
