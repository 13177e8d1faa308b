package chainage.importer;

import chainage.quantity.ContentDigest;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;

/** A ledger in memory, as far as an import needs one. */
final class KnownInMemory implements KnownFiles, Sink {
    private final Map<String, Outcome> sources = new ConcurrentHashMap<>();
    private final Map<ContentDigest, Known> contents = new ConcurrentHashMap<>();

    /** Ride keys and the paths of their contents. */
    final Map<String, String> rides = new TreeMap<>();

    int batches;

    @Override
    public Optional<Known> unchanged(SourceStamp stamp) {
        return Optional.ofNullable(sources.get(stamp.path()))
                .filter(o -> o.stamp().equals(stamp))
                .map(o -> new Known(o.digest(), o.kind(), o.reason(), o.hint(), o.ahead()));
    }

    @Override
    public Optional<Known> known(ContentDigest digest) {
        return Optional.ofNullable(contents.get(digest));
    }

    @Override
    public void write(List<Outcome> batch) {
        batches++;
        for (Outcome o : batch) {
            sources.merge(o.stamp().path(), o, KnownInMemory::renewed);
            ContentDigest digest = o.digest();
            if (digest != null && o.kind() != Outcome.Kind.KNOWN) {
                contents.putIfAbsent(digest, new Known(digest, o.kind(), o.reason(), o.hint(), o.ahead()));
            }
            o.rides().forEach(r -> rides.put(r.key().id(), r.start().toString()));
        }
    }

    /** What is known is known from this very path when that held it before: then the first verdict stands. */
    private static Outcome renewed(Outcome before, Outcome now) {
        boolean same = now.kind() == Outcome.Kind.KNOWN && Objects.equals(before.digest(), now.digest());
        return !same
                ? now
                : new Outcome(
                        now.file(),
                        now.stamp(),
                        now.digest(),
                        before.kind(),
                        before.reason(),
                        before.hint(),
                        before.refusedParts(),
                        before.keys(),
                        List.of(),
                        now.ahead(),
                        null,
                        true);
    }

    /** All that is kept, in a fixed order. */
    String state() {
        Map<String, String> lines = new TreeMap<>();
        sources.forEach((path, o) -> lines.put(path, o.stamp() + " " + o.digest() + " " + o.kind() + " " + o.reason()));
        return lines + "\n" + rides + "\n" + new TreeMap<>(Map.copyOf(kinds()));
    }

    private Map<String, String> kinds() {
        Map<String, String> kinds = new TreeMap<>();
        contents.forEach((digest, known) -> kinds.put(digest.hex(), known.kind() + known.reason()));
        return kinds;
    }

    /** This shelf, out of order after so many outcomes; a batch is kept whole or not at all. */
    Sink failingAfter(int outcomes) {
        int[] left = {outcomes};
        return batch -> {
            left[0] -= batch.size();
            if (left[0] < 0) {
                throw new IOException("the disk is full");
            }
            write(batch);
        };
    }
}
