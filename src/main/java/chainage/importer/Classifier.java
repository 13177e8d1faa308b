package chainage.importer;

import chainage.logbook.LogbookText;
import chainage.logbook.Refusal;
import chainage.quantity.ContentDigest;
import chainage.ride.Ride;
import chainage.ridefile.Decoded;
import chainage.ridefile.RideFileException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;

/** Says what becomes of one content. Many threads ask the same judge. */
final class Classifier {
    /** Of many lines of one kind so many are told. */
    private static final int TOLD = 3;

    private final Decode decode;
    private final Instant latest;
    private final Function<ContentDigest, Optional<KnownFiles.Known>> known;

    Classifier(Decode decode, Instant latest, Function<ContentDigest, Optional<KnownFiles.Known>> known) {
        this.decode = decode;
        this.latest = latest;
        this.known = known;
    }

    /**
     * A verdict that may still change.
     *
     * @param outcome with rides
     * @param torn true when the content ends too early, as that of a file does that is still being written
     */
    record Draft(Outcome outcome, boolean torn) {}

    Draft classify(FoundAt place, byte[] content) {
        ContentDigest digest = ContentDigest.of(content);
        Optional<KnownFiles.Known> before = known.apply(digest);
        if (before.isPresent()) {
            return new Draft(again(place, digest, before.get()), false);
        }
        if (LogbookText.promises(content)) {
            return logbook(place, digest, content);
        }
        try {
            return decoded(place, digest, decode.decode(content, digest, latest));
        } catch (RideFileException e) {
            return new Draft(
                    Outcome.of(place, Outcome.Kind.REFUSED, e.what(), e.hint()).withDigest(digest), e.torn());
        } catch (RuntimeException | StackOverflowError | AssertionError e) {
            // Our own bug, but one file's; the others shall not suffer for it. Not settled: a mended program tries
            // anew.
            return new Draft(
                    Outcome.of(
                                    place,
                                    Outcome.Kind.REFUSED,
                                    "the reader failed (" + e.getClass().getName() + ": " + e.getMessage() + ")",
                                    "this is a fault of the program; please report it")
                            .unsettled(),
                    false);
        }
    }

    private static Draft logbook(FoundAt place, ContentDigest digest, byte[] content) {
        try {
            return new Draft(Outcome.of(place, LogbookText.of(content)), false);
        } catch (Refusal e) {
            return new Draft(
                    Outcome.of(place, Outcome.Kind.REFUSED, e.reason(), "").withDigest(digest), false);
        }
    }

    /** The verdict on a content that has one already, found at another place. */
    static Outcome again(FoundAt place, ContentDigest digest, KnownFiles.Known known) {
        boolean rides = known.kind() != Outcome.Kind.REFUSED && known.kind() != Outcome.Kind.NOT_RIDE;
        Outcome outcome = rides
                ? Outcome.of(place, Outcome.Kind.KNOWN, "same content as a file read before", "")
                : Outcome.of(place, known.kind(), known.reason(), known.hint()).withAhead(known.ahead());
        ContentDigest first = known.digest();
        return outcome.withDigest(first == null ? digest : first);
    }

    private static Draft decoded(FoundAt place, ContentDigest digest, Decoded decoded) {
        List<Ride> rides = decoded.activities();
        List<String> salvaged = new ArrayList<>();
        for (Ride ride : rides) {
            if (ride.salvaged() != null) {
                salvaged.add(ride.salvaged());
            }
        }
        List<Decoded.Passed> refused =
                decoded.passed().stream().filter(Decoded.Passed::refused).toList();
        List<String> reasons = new ArrayList<>(salvaged);
        decoded.passed()
                .forEach(p ->
                        reasons.add(part(p, rides.isEmpty() && decoded.passed().size() == 1)));
        String hint = refused.stream()
                .map(Decoded.Passed::hint)
                .filter(m -> !m.isEmpty())
                .distinct()
                .limit(TOLD)
                .collect(Collectors.joining("; "));
        Outcome.Kind kind = !salvaged.isEmpty()
                ? Outcome.Kind.SALVAGED
                : !rides.isEmpty()
                        ? Outcome.Kind.IMPORTED
                        : refused.isEmpty() ? Outcome.Kind.NOT_RIDE : Outcome.Kind.REFUSED;
        String reason = reasons.isEmpty() && rides.isEmpty() ? "holds no activity" : told(reasons);
        Outcome outcome = new Outcome(
                place.file(),
                place.stamp(),
                digest,
                kind,
                reason,
                hint,
                rides.isEmpty() ? 0 : refused.size(),
                rides.stream().map(Ride::key).toList(),
                rides,
                decoded.ahead(),
                null,
                true);
        return new Draft(outcome, !salvaged.isEmpty());
    }

    private static String part(Decoded.Passed passed, boolean alone) {
        return alone
                ? passed.what()
                : "part " + (passed.session() + 1) + (passed.refused() ? " refused: " : " passed over: ")
                        + passed.what();
    }

    private static String told(List<String> reasons) {
        String told = reasons.stream().limit(TOLD).collect(Collectors.joining("; "));
        return reasons.size() <= TOLD ? told : told + "; and " + (reasons.size() - TOLD) + " more";
    }
}
