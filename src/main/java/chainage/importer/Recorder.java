package chainage.importer;

import chainage.quantity.ContentDigest;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Takes verdicts in input order, settles what only that order can settle (which of two equal contents came first), and
 * passes them to the sink in batches. For the importing thread, save {@link #written}.
 */
final class Recorder {
    /** A file changed no longer ago may still be being written, when it looks torn. */
    private static final Duration FRESH = Duration.ofSeconds(10);

    /** So long a file must have rested to be taken as it stands; also the longest wait. */
    private static final Duration REST = Duration.ofSeconds(2);

    private final KnownFiles memory;
    private final Sink sink;
    private final Options options;
    private final UnpackLimits limits;
    private final Map<ContentDigest, KnownFiles.Known> written = new ConcurrentHashMap<>();
    private final List<Numbered> results = new ArrayList<>();
    private final List<Deferred> deferred = new ArrayList<>();
    private final Map<String, List<Optional<ContentDigest>>> entryNames = new HashMap<>();
    private List<Outcome> batch = new ArrayList<>();
    private boolean entryToSeeAgain;
    private int batchRides;
    private int taken;

    private record Numbered(int number, Outcome outcome) {}

    private record Deferred(int number, Walk.Found file, Path path, Classifier.Draft draft) {}

    Recorder(KnownFiles memory, Sink sink, Options options, UnpackLimits limits) {
        this.memory = memory;
        this.sink = sink;
        this.options = options;
        this.limits = limits;
    }

    /** The verdict on a content that this import has dealt with already. Any thread may ask. */
    Optional<KnownFiles.Known> written(ContentDigest digest) {
        return Optional.ofNullable(written.get(digest));
    }

    /** An unchanged file: only told, since all is remembered already. */
    void unchanged(Outcome outcome) {
        results.add(new Numbered(taken++, outcome));
    }

    /** The next verdict in input order. */
    void take(Walk.Found file, Classifier.Draft draft) throws IOException {
        int number = taken++;
        boolean entry =
                !draft.outcome().stamp().path().equals(file.place().stamp().path());
        Classifier.Draft settled;
        if (entry) {
            // A logbook in an archive is looked at when the archive changes.
            entryToSeeAgain |= !draft.outcome().settled() && draft.outcome().kind() != Outcome.Kind.LOGBOOK;
            settled = amongItsNames(draft);
        } else {
            settled = entryToSeeAgain ? new Classifier.Draft(draft.outcome().unsettled(), draft.torn()) : draft;
            entryToSeeAgain = false;
            entryNames.clear();
        }
        // An entry of an archive that is still being written shows in the archive, which then counts as torn itself.
        Path path = file.path();
        if (settled.torn() && !entry && path != null && isFresh(settled.outcome())) {
            deferred.add(new Deferred(number, file, path, settled));
        } else {
            file(number, settled.outcome());
        }
    }

    private boolean isFresh(Outcome outcome) {
        return age(outcome.stamp()).abs().compareTo(FRESH) < 0;
    }

    private Duration age(SourceStamp stamp) {
        return Duration.between(
                Instant.ofEpochMilli(stamp.modifiedMillis()), options.clock().get());
    }

    /** Two entries of one name: the same content counts once, another one is refused, since only one can be meant. */
    private Classifier.Draft amongItsNames(Classifier.Draft draft) {
        Outcome o = draft.outcome();
        List<Optional<ContentDigest>> before =
                entryNames.computeIfAbsent(o.stamp().path(), path -> new ArrayList<>());
        Optional<ContentDigest> digest = Optional.ofNullable(o.digest());
        before.add(digest);
        FoundAt place = new FoundAt(o.file(), o.stamp());
        if (before.size() == 1) {
            return draft;
        } else if (before.get(0).equals(digest)) {
            // Told but not remembered: the first one's memo stands for both.
            return new Classifier.Draft(
                    Outcome.of(place, Outcome.Kind.KNOWN, "a second entry of this name, the same", "")
                            .unsettled(),
                    false);
        }
        return new Classifier.Draft(
                Outcome.of(
                        place.again(before.size()),
                        Outcome.Kind.REFUSED,
                        "a second entry of this name with other content",
                        "unpack both under names of their own and import those"),
                false);
    }

    private void file(int number, Outcome judged) throws IOException {
        Outcome outcome = judged;
        ContentDigest digest = judged.digest();
        if (digest != null && judged.settled()) {
            FoundAt place = new FoundAt(judged.file(), judged.stamp());
            KnownFiles.Known before = written.get(digest);
            if (before != null) {
                outcome = Classifier.again(place, digest, before);
            } else {
                outcome = repeated(place, judged, digest);
                written.put(
                        digest,
                        new KnownFiles.Known(
                                outcome.digest(), outcome.kind(), outcome.reason(), outcome.hint(), outcome.ahead()));
            }
        }
        results.add(new Numbered(number, outcome.withoutRides()));
        if (outcome.settled()) {
            batch.add(outcome);
            batchRides += outcome.rides().size();
            if (batch.size() >= limits.batchOutcomes() || batchRides >= limits.batchRides()) {
                flush();
            }
        }
    }

    /** What was recorded once stands under the content that told it first. Refused parts are told of each file. */
    private Outcome repeated(FoundAt place, Outcome judged, ContentDigest digest) throws IOException {
        if (judged.rides().isEmpty() || judged.refusedParts() > 0) {
            return judged;
        }
        return memory.repeated(digest, judged.rides())
                .map(first -> Outcome.of(place, Outcome.Kind.KNOWN, "same recording as a file read before", "")
                        .withDigest(first))
                .orElse(judged);
    }

    private void flush() throws IOException {
        if (!batch.isEmpty()) {
            sink.write(List.copyOf(batch));
            batch = new ArrayList<>();
            batchRides = 0;
        }
    }

    /** Looks again at what seemed torn, writes the rest, and hands back all outcomes in input order. */
    List<Outcome> finish() throws IOException, InterruptedException {
        flush();
        Duration wait = deferred.stream()
                .map(d -> REST.minus(age(d.draft().outcome().stamp())))
                .max(Comparator.naturalOrder())
                .orElse(Duration.ZERO);
        if (!wait.isNegative() && !wait.isZero()) {
            options.pause().pause(wait.compareTo(REST) > 0 ? REST : wait);
        }
        for (Deferred d : deferred) {
            Outcome outcome = d.draft().outcome();
            if (hasChanged(d.path(), d.file().place().stamp())) {
                outcome = Outcome.of(
                                d.file().place(),
                                Outcome.Kind.REFUSED,
                                "still being written, left for the next import",
                                "import again when it is complete")
                        .unsettled();
            }
            file(d.number(), outcome);
        }
        flush();
        return results.stream()
                .sorted(Comparator.comparingInt(Numbered::number))
                .map(Numbered::outcome)
                .toList();
    }

    private static boolean hasChanged(Path path, SourceStamp stamp) {
        try {
            BasicFileAttributes now = Files.readAttributes(path, BasicFileAttributes.class);
            return now.size() != stamp.size() || now.lastModifiedTime().toMillis() != stamp.modifiedMillis();
        } catch (IOException e) {
            return true;
        }
    }
}
