package chainage.importer;

import chainage.logbook.LogbookText;
import chainage.quantity.ContentDigest;
import chainage.quantity.RideKey;
import chainage.ride.Ride;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What became of one file, or of one entry of an archive.
 *
 * @param file its name as the rider gave it, below the folder that was named; an entry as {@code archive.zip!/entry}.
 *     From outside, so neutralise before showing.
 * @param stamp absolute path, size and time of change
 * @param digest of the decompressed content, or of the content that held the same recordings first; null where it was not
 *     read to its end
 * @param kind the verdict
 * @param reason one line; empty where the verdict says all
 * @param hint what the rider can do, one line; may be empty
 * @param refusedParts how many parts of the file were refused although others were imported; their reasons are in
 *     {@code reason}
 * @param keys of the rides in it, by place in the file; empty unless imported or salvaged now
 * @param rides as {@code keys}, in outcomes that go to a {@link Sink}; empty in those handed back at the end
 * @param ahead the earliest date in it that was not believed because it lies ahead of the clock; null where none was
 * @param logbook its lines; null where it is none
 * @param settled false when the file is to be looked at again next time whatever its stamp says
 */
public record Outcome(
        String file,
        SourceStamp stamp,
        @Nullable ContentDigest digest,
        Kind kind,
        String reason,
        String hint,
        int refusedParts,
        List<RideKey> keys,
        List<Ride> rides,
        @Nullable Instant ahead,
        @Nullable LogbookText logbook,
        boolean settled) {
    public Outcome {
        keys = List.copyOf(keys);
        rides = List.copyOf(rides);
    }

    /** What became of a file. */
    public enum Kind {
        /**
         * Holds dated activities, all kept. Whether they are bike rides, and whether they are twins, is for the caller
         * to say: activities of every sport are kept, since the rider may overrule the file.
         */
        IMPORTED,
        /** As imported, but only what came before a break. */
        SALVAGED,
        /** Unchanged since an earlier import, or the same content as another file. */
        KNOWN,
        /** Something else than a ride; no error. */
        NOT_RIDE,
        /** A ride file that cannot be used, or a file that cannot be read. */
        REFUSED,
        /** A logbook, whose lines are for the caller to read; to be looked at each time. */
        LOGBOOK,
        /** An archive read to its end. Its entries have outcomes of their own, so it is not to be counted again. */
        ARCHIVE
    }

    static Outcome of(FoundAt place, Kind kind, String reason, String hint) {
        return new Outcome(
                place.file(), place.stamp(), null, kind, reason, hint, 0, List.of(), List.of(), null, null, true);
    }

    Outcome withDigest(ContentDigest of) {
        return new Outcome(file, stamp, of, kind, reason, hint, refusedParts, keys, rides, ahead, logbook, settled);
    }

    Outcome withAhead(@Nullable Instant date) {
        return new Outcome(file, stamp, digest, kind, reason, hint, refusedParts, keys, rides, date, logbook, settled);
    }

    static Outcome of(FoundAt place, LogbookText logbook) {
        return new Outcome(
                place.file(), place.stamp(), null, Kind.LOGBOOK, "", "", 0, List.of(), List.of(), null, logbook, false);
    }

    Outcome unsettled() {
        return new Outcome(file, stamp, digest, kind, reason, hint, refusedParts, keys, rides, ahead, logbook, false);
    }

    /** As a content that was known already and was read all the same. */
    public Outcome asKnown(String why) {
        return new Outcome(file, stamp, digest, Kind.KNOWN, why, "", 0, List.of(), List.of(), ahead, null, settled);
    }

    Outcome withoutRides() {
        return new Outcome(
                file, stamp, digest, kind, reason, hint, refusedParts, keys, List.of(), ahead, logbook, settled);
    }
}
