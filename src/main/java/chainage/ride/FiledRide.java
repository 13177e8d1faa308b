package chainage.ride;

import java.util.Comparator;
import java.util.List;

/**
 * A ride and the places its content was found in.
 *
 * @param ride the facts
 * @param paths every path the content was seen under, sorted; an archive's entry as {@code archive.zip!/entry}. Folder
 *     and file names are evidence for the bike.
 */
public record FiledRide(Ride ride, List<String> paths) {
    /** By start; two that start together by content and place in it, so that the order is always the same. */
    public static final Comparator<FiledRide> BY_START = Comparator.comparing(
                    (FiledRide r) -> r.ride().start())
            .thenComparing(r -> r.ride().key().digest().hex())
            .thenComparing(r -> r.ride().key().session());

    public FiledRide {
        paths = paths.size() < 2 ? List.copyOf(paths) : paths.stream().sorted().toList();
    }

    public String id() {
        return ride.key().id();
    }
}
