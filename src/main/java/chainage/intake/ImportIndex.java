package chainage.intake;

import chainage.importer.KnownFiles;
import chainage.importer.Outcome;
import chainage.importer.SourceStamp;
import chainage.quantity.ContentDigest;
import chainage.ride.Ride;
import chainage.store.Delivery;
import chainage.store.Recordings;
import chainage.store.SeenSources;
import chainage.store.Source;
import java.io.IOException;
import java.util.List;
import java.util.Optional;

/** Joins the importer to the ledger file, which do not know each other. */
final class ImportIndex implements KnownFiles {
    private final SeenSources seen;
    private final Recordings recordings;
    private final boolean again;

    /** @param again true to have every file read, known or not */
    ImportIndex(SeenSources seen, Recordings recordings, boolean again) {
        this.seen = seen;
        this.recordings = recordings;
        this.again = again;
    }

    @Override
    public Optional<Known> unchanged(SourceStamp stamp) {
        return again
                ? Optional.empty()
                : seen.unchanged(stamp.path(), stamp.size(), stamp.modifiedMillis())
                        .map(s -> new Known(s.digest(), kind(s.verdict()), s.reason(), s.hint(), null));
    }

    @Override
    public Optional<Known> known(ContentDigest digest) {
        return again
                ? Optional.empty()
                : seen.known(digest).map(c -> new Known(digest, kind(c.verdict()), c.reason(), c.hint(), c.ahead()));
    }

    /** As it is to be told: what was known, and has only been read once more, is no new ride. */
    Outcome told(Outcome outcome) {
        ContentDigest digest = outcome.digest();
        boolean rides = outcome.kind() == Outcome.Kind.IMPORTED || outcome.kind() == Outcome.Kind.SALVAGED;
        return again && rides && digest != null && seen.known(digest).isPresent()
                ? outcome.asKnown("read once more")
                : outcome;
    }

    @Override
    public Optional<ContentDigest> repeated(ContentDigest digest, List<Ride> rides) throws IOException {
        return recordings.first(digest, rides);
    }

    /** What a batch of outcomes leaves in the ledger; files to be looked at again leave nothing. */
    static List<Delivery> deliveries(List<Outcome> batch) {
        return batch.stream()
                .filter(Outcome::settled)
                .map(o -> new Delivery(
                        new Source(
                                o.stamp().path(),
                                o.stamp().size(),
                                o.stamp().modifiedMillis(),
                                o.digest(),
                                verdict(o.kind()),
                                o.reason(),
                                o.hint(),
                                o.refusedParts()),
                        o.rides(),
                        o.ahead()))
                .toList();
    }

    static Outcome.Kind kind(Source.Verdict kept) {
        return switch (kept) {
            case IMPORTED -> Outcome.Kind.IMPORTED;
            case SALVAGED -> Outcome.Kind.SALVAGED;
            case KNOWN -> Outcome.Kind.KNOWN;
            case NOT_RIDE -> Outcome.Kind.NOT_RIDE;
            case REFUSED -> Outcome.Kind.REFUSED;
            case ARCHIVE -> Outcome.Kind.ARCHIVE;
        };
    }

    static Source.Verdict verdict(Outcome.Kind kind) {
        return switch (kind) {
            case IMPORTED -> Source.Verdict.IMPORTED;
            case SALVAGED -> Source.Verdict.SALVAGED;
            case KNOWN -> Source.Verdict.KNOWN;
            case NOT_RIDE -> Source.Verdict.NOT_RIDE;
            case REFUSED -> Source.Verdict.REFUSED;
            case ARCHIVE -> Source.Verdict.ARCHIVE;
            case LOGBOOK -> throw new AssertionError("a logbook is not remembered as a file of rides");
        };
    }
}
